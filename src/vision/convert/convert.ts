import { GraphBuilder, type Operator } from './builder.ts';
import { dataInputsOf, inRunningOrder, outputNamesOf, type GraphModelFile, type GraphNode } from './graph.ts';
import { NUMBER_OPERATORS } from './numbers.ts';
import { DATA_TYPE, encodeModel, type OnnxValue } from './onnx-schema.ts';
import { PICTURE_OPERATORS } from './pictures.ts';
import { SHAPE_OPERATORS } from './shapes.ts';
import { readWeights } from './weights.ts';

const OPERATORS: Readonly<Record<string, Operator>> = { ...PICTURE_OPERATORS, ...NUMBER_OPERATORS, ...SHAPE_OPERATORS };

export interface ConvertOptions {
  readonly name: string;
  /** The results to keep; all of the source's signature if absent. */
  readonly outputs?: readonly string[];
  /** Written into the file: where the weights come from and under which licence. */
  readonly metadata?: Readonly<Record<string, string>>;
}

/**
 * Turns a TensorFlow.js graph model into an ONNX model (operator set 13) that computes the same numbers. Weights that
 * are stored in half precision stay so in the file and are computed with in single precision.
 * The outputs keep the source's names.
 * @param file the parsed `model.json`
 * @param weights the weight files of its manifest, one after the other
 * @throws Error naming the operator when the graph uses one that is not supported
 */
export function convertGraphModel(file: GraphModelFile, weights: Uint8Array, options: ConvertOptions): Uint8Array {
  const builder = new GraphBuilder(readWeights(file.weightsManifest, weights));
  const outputNames = options.outputs ?? outputNamesOf(file);
  const inputs: OnnxValue[] = [];
  for (const node of inRunningOrder(file, outputNames)) {
    if (node.op === 'Const') continue;
    if (node.op === 'Placeholder') {
      inputs.push(inputOf(node));
      builder.set(node.name, node.name);
      continue;
    }
    const operator = OPERATORS[node.op];
    if (operator === undefined)
      throw new Error(`The converter does not support the operator "${node.op}" (${node.name}).`);
    operator(builder, node, dataInputsOf(node));
  }
  const outputs = outputNames.map((name): OnnxValue => {
    const value = builder.source(name);
    builder.nodes.push({
      input: [value],
      output: [`output/${name}`],
      name: `output/${name}`,
      opType: 'Identity',
      attribute: [],
    });
    return { name: `output/${name}`, dataType: DATA_TYPE.float32 };
  });
  const { nodes, initialisers } = builder;
  return encodeModel({ name: options.name, nodes, initialisers, inputs, outputs }, options.metadata ?? {});
}

function inputOf(node: GraphNode): OnnxValue {
  const dataType = node.attr?.['dtype']?.type === 'DT_INT32' ? DATA_TYPE.int32 : DATA_TYPE.float32;
  const sizes = node.attr?.['shape']?.shape?.dim ?? [];
  return {
    name: node.name,
    dataType,
    shape: sizes.map(({ size }, axis) => (Number(size) > 0 ? Number(size) : `axis${axis}`)),
  };
}
