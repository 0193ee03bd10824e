import { numberOf, numbersOf, type GraphNode } from './graph.ts';
import { DATA_TYPE, type DataType } from './onnx-schema.ts';
import type { GraphBuilder, Operator } from './builder.ts';

const CAST_TO: Readonly<Record<string, DataType>> = {
  DT_FLOAT: DATA_TYPE.float32,
  DT_INT32: DATA_TYPE.int32,
  DT_INT64: DATA_TYPE.int64,
  DT_BOOL: DATA_TYPE.bool,
};

const TO_THE_END = 2 ** 31 - 1;

/** Operators that only move, cut or join numbers. */
export const SHAPE_OPERATORS: Readonly<Record<string, Operator>> = {
  Cast: (builder, node, [input]) => {
    const value = builder.get(input!);
    const to = CAST_TO[node.attr?.['DstT']?.type ?? ''];
    if (to === undefined) throw new Error(`The converter does not know the number type that "${node.name}" asks for.`);
    builder.set(node.name, builder.cast(value.name, to), value.layout);
  },
  Shape: (builder, node, [input]) => {
    builder.set(node.name, builder.cast(builder.add('Shape', [builder.source(input!)]), DATA_TYPE.int32));
  },
  Size: (builder, node, [input]) => {
    builder.set(node.name, builder.cast(builder.add('Size', [builder.source(input!)]), DATA_TYPE.int32));
  },
  Reshape: (builder, node, [input, shape]) => {
    shaped(builder, node, 'Reshape', input!, shape!);
  },
  Tile: (builder, node, [input, repeats]) => {
    shaped(builder, node, 'Tile', input!, repeats!);
  },
  Fill: (builder, node, [shape, value]) => {
    shaped(builder, node, 'Expand', value!, shape!);
  },
  GatherNd: (builder, node, [input, places]) => {
    shaped(builder, node, 'GatherND', input!, places!);
  },
  ExpandDims: (builder, node, [input, axis]) => {
    const axes = builder.integers(builder.numbersOf(axis!));
    builder.set(node.name, builder.add('Unsqueeze', [builder.source(input!), axes]));
  },
  Squeeze: (builder, node, [input]) => {
    const axes = numbersOf(node, 'squeeze_dims');
    const operands = axes.length > 0 ? [builder.integers(axes)] : [];
    builder.set(node.name, builder.add('Squeeze', [builder.source(input!), ...operands]));
  },
  Pack: (builder, node, inputs) => {
    const axis = numberOf(node, 'axis');
    const parts = inputs.map((input) => builder.add('Unsqueeze', [builder.source(input), builder.integers([axis])]));
    builder.set(node.name, builder.add('Concat', parts, { axis }));
  },
  ConcatV2: (builder, node, inputs) => {
    const [axis] = builder.numbersOf(inputs.at(-1)!);
    const parts = inputs.slice(0, -1);
    const alongChannels = (axis === 3 || axis === -1) && parts.every((input) => builder.isChannelsFirst(input));
    if (alongChannels) {
      const joined = builder.add(
        'Concat',
        parts.map((input) => builder.channelsFirst(input)),
        { axis: 1 },
      );
      builder.set(node.name, joined, 'channels-first');
    } else {
      builder.set(
        node.name,
        builder.add(
          'Concat',
          parts.map((input) => builder.source(input)),
          { axis: axis! },
        ),
      );
    }
  },
  Unpack: (builder, node, [input]) => {
    const axis = numberOf(node, 'axis');
    const parts = split(builder, builder.source(input!), axis, numberOf(node, 'num'));
    setAll(
      builder,
      node,
      parts.map((part) => builder.add('Squeeze', [part, builder.integers([axis])])),
    );
  },
  Split: (builder, node, [axis, input]) => {
    const [along] = builder.numbersOf(axis!);
    setAll(builder, node, split(builder, builder.source(input!), along!, numberOf(node, 'num_split')));
  },
  Range: (builder, node, inputs) => {
    builder.set(
      node.name,
      builder.add(
        'Range',
        inputs.map((input) => builder.source(input)),
      ),
    );
  },
  StridedSlice: stridedSlice,
};

function shaped(builder: GraphBuilder, node: GraphNode, opType: string, input: string, shape: string): void {
  const wide = builder.cast(builder.get(shape).name, DATA_TYPE.int64);
  builder.set(node.name, builder.add(opType, [builder.source(input), wide]));
}

function split(builder: GraphBuilder, input: string, axis: number, count: number): string[] {
  return count === 1 ? [input] : builder.addMany('Split', [input], { axis }, count);
}

function setAll(builder: GraphBuilder, node: GraphNode, results: readonly string[]): void {
  results.forEach((result, index) => {
    builder.set(index === 0 ? node.name : `${node.name}:${index}`, result);
  });
}

/** Bit i of a mask speaks of the i-th entry of the slice: new axis, from the start, to the end, or axis dropped. */
function stridedSlice(builder: GraphBuilder, node: GraphNode, inputs: readonly string[]): void {
  const [begin, end, stride] = inputs.slice(1).map((input) => builder.numbersOf(input));
  const has = (mask: string, entry: number): boolean => ((numberOf(node, mask) >> entry) & 1) === 1;
  if (numberOf(node, 'ellipsis_mask') !== 0)
    throw new Error(`Slices with an ellipsis are not supported (${node.name}).`);
  const from: number[] = [];
  const to: number[] = [];
  const steps: number[] = [];
  const dropped: number[] = [];
  const added: number[] = [];
  begin!.forEach((first, entry) => {
    if (has('new_axis_mask', entry)) {
      added.push(entry);
      return;
    }
    const axis = from.length;
    from.push(has('begin_mask', entry) ? 0 : first);
    if (has('shrink_axis_mask', entry)) {
      dropped.push(axis);
      to.push(first === -1 ? TO_THE_END : first + 1);
    } else {
      to.push(has('end_mask', entry) ? TO_THE_END : end![entry]!);
    }
    steps.push(stride![entry]!);
  });
  if (added.length > 0 && dropped.length > 0) {
    throw new Error(`Slices that add and drop axes at once are not supported (${node.name}).`);
  }
  const axes = from.map((_, axis) => axis);
  let result = builder.add('Slice', [
    builder.source(inputs[0]!),
    ...[from, to, axes, steps].map((list) => builder.integers(list)),
  ]);
  if (dropped.length > 0) result = builder.add('Squeeze', [result, builder.integers(dropped)]);
  if (added.length > 0) result = builder.add('Unsqueeze', [result, builder.integers(added)]);
  builder.set(node.name, result);
}
