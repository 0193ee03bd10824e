import { flagOf, numberOf, textsOf, type GraphNode } from './graph.ts';
import { DATA_TYPE } from './onnx-schema.ts';
import type { GraphBuilder, Operator } from './builder.ts';
import { clipToSix } from './pictures.ts';

/** Source names of operators on two tensors, number by number, and their ONNX names. */
const PAIRWISE: Readonly<Record<string, string>> = {
  Add: 'Add',
  AddV2: 'Add',
  Sub: 'Sub',
  Mul: 'Mul',
  RealDiv: 'Div',
  // Only used on whole numbers from zero up, where ONNX's division is the same.
  FloorDiv: 'Div',
  Maximum: 'Max',
  Minimum: 'Min',
  Less: 'Less',
  Greater: 'Greater',
  GreaterEqual: 'GreaterOrEqual',
  Equal: 'Equal',
  LogicalAnd: 'And',
};

const SINGLE = ['Relu', 'Sigmoid', 'Abs', 'Exp', 'Sqrt', 'Reciprocal', 'Identity'];

/** Operators number by number, and those that sum up along axes. */
export const NUMBER_OPERATORS: Readonly<Record<string, Operator>> = {
  ...Object.fromEntries(Object.entries(PAIRWISE).map(([source, opType]) => [source, pairwise(opType)])),
  ...Object.fromEntries(SINGLE.map((opType) => [opType, single((builder, input) => builder.add(opType, [input]))])),
  Relu6: single(clipToSix),
  SquaredDifference: (builder, node, [first, second]) => {
    const difference = builder.add('Sub', [builder.source(first!), builder.source(second!)]);
    builder.set(node.name, builder.add('Mul', [difference, difference]));
  },
  AddN: (builder, node, inputs) => {
    const pictures = inputs.every((input) => builder.isChannelsFirst(input));
    const terms = inputs.map((input) => (pictures ? builder.channelsFirst(input) : builder.source(input)));
    builder.set(node.name, builder.add('Sum', terms), pictures ? 'channels-first' : 'as-in-source');
  },
  Sum: (builder, node, [input, axes]) => {
    const operands = [builder.source(input!), builder.integers(builder.numbersOf(axes!))];
    builder.set(node.name, builder.add('ReduceSum', operands, { keepdims: keepsAxes(node) }));
  },
  Max: reduce('ReduceMax'),
  Mean: reduce('ReduceMean'),
  ArgMax: (builder, node, [input, axis]) => {
    const [only] = builder.numbersOf(axis!);
    const place = builder.add('ArgMax', [builder.source(input!)], { axis: only!, keepdims: 0 });
    builder.set(node.name, builder.cast(place, DATA_TYPE.int32));
  },
  MatMul: matrixProduct,
  _FusedMatMul: matrixProduct,
  TopKV2: (builder, node, [input, count]) => {
    const wanted = builder.add('Reshape', [
      builder.cast(builder.get(count!).name, DATA_TYPE.int64),
      builder.integers([1]),
    ]);
    const [values, places] = builder.addMany('TopK', [builder.source(input!), wanted], { axis: -1 }, 2);
    builder.set(node.name, values!);
    builder.set(`${node.name}:1`, builder.cast(places!, DATA_TYPE.int32));
  },
  Select: choose,
  SelectV2: choose,
};

function pairwise(opType: string): Operator {
  return (builder, node, [first, second]) => {
    if (builder.isChannelsFirst(first!) || builder.isChannelsFirst(second!)) {
      const operands = [first!, second!].map((input) => channelsFirstOrSpread(builder, input));
      if (operands.every((name) => name !== undefined)) {
        builder.set(node.name, builder.add(opType, operands), 'channels-first');
        return;
      }
    }
    builder.set(node.name, builder.add(opType, [builder.source(first!), builder.source(second!)]));
  };
}

function channelsFirstOrSpread(builder: GraphBuilder, input: string): string | undefined {
  if (builder.isChannelsFirst(input)) return builder.channelsFirst(input);
  return builder.perChannel(input);
}

function single(write: (builder: GraphBuilder, input: string) => string): Operator {
  return (builder, node, [input]) => {
    const value = builder.get(input!);
    builder.set(node.name, write(builder, value.name), value.layout);
  };
}

function reduce(opType: string): Operator {
  return (builder, node, [input, axes]) => {
    const attributes = { axes: builder.numbersOf(axes!), keepdims: keepsAxes(node) };
    builder.set(node.name, builder.add(opType, [builder.source(input!)], attributes));
  };
}

function keepsAxes(node: GraphNode): number {
  return flagOf(node, 'keep_dims') ? 1 : 0;
}

function matrixProduct(builder: GraphBuilder, node: GraphNode, inputs: readonly string[]): void {
  if (flagOf(node, 'transpose_a') || flagOf(node, 'transpose_b') || numberOf(node, 'num_args', 1) > 1) {
    throw new Error(`Only plain matrix products with one more operand are supported (${node.name}).`);
  }
  const fused = textsOf(node, 'fused_ops');
  let result = builder.add('MatMul', [builder.source(inputs[0]!), builder.source(inputs[1]!)]);
  if (fused.includes('BiasAdd')) result = builder.add('Add', [result, builder.source(inputs[2]!)]);
  if (fused.includes('Relu')) result = builder.add('Relu', [result]);
  builder.set(node.name, result);
}

function choose(builder: GraphBuilder, node: GraphNode, inputs: readonly string[]): void {
  builder.set(
    node.name,
    builder.add(
      'Where',
      inputs.map((input) => builder.source(input)),
    ),
  );
}
