import protobuf from 'protobufjs';

/**
 * The messages of the ONNX file format that the converter writes; names and numbers as in onnx.proto (ONNX project,
 * IR version 8). Only the fields in use.
 */
const root = protobuf.Root.fromJSON({
  nested: {
    ModelProto: {
      fields: {
        irVersion: { type: 'int64', id: 1 },
        producerName: { type: 'string', id: 2 },
        graph: { type: 'GraphProto', id: 7 },
        opsetImport: { rule: 'repeated', type: 'OperatorSetIdProto', id: 8 },
        metadataProps: { rule: 'repeated', type: 'StringStringEntryProto', id: 14 },
      },
    },
    OperatorSetIdProto: { fields: { domain: { type: 'string', id: 1 }, version: { type: 'int64', id: 2 } } },
    StringStringEntryProto: { fields: { key: { type: 'string', id: 1 }, value: { type: 'string', id: 2 } } },
    GraphProto: {
      fields: {
        node: { rule: 'repeated', type: 'NodeProto', id: 1 },
        name: { type: 'string', id: 2 },
        initializer: { rule: 'repeated', type: 'TensorProto', id: 5 },
        input: { rule: 'repeated', type: 'ValueInfoProto', id: 11 },
        output: { rule: 'repeated', type: 'ValueInfoProto', id: 12 },
      },
    },
    NodeProto: {
      fields: {
        input: { rule: 'repeated', type: 'string', id: 1 },
        output: { rule: 'repeated', type: 'string', id: 2 },
        name: { type: 'string', id: 3 },
        opType: { type: 'string', id: 4 },
        attribute: { rule: 'repeated', type: 'AttributeProto', id: 5 },
      },
    },
    AttributeProto: {
      fields: {
        name: { type: 'string', id: 1 },
        i: { type: 'int64', id: 3 },
        s: { type: 'bytes', id: 4 },
        ints: { rule: 'repeated', type: 'int64', id: 8 },
        type: { type: 'int32', id: 20 },
      },
    },
    TensorProto: {
      fields: {
        dims: { rule: 'repeated', type: 'int64', id: 1 },
        dataType: { type: 'int32', id: 2 },
        name: { type: 'string', id: 8 },
        rawData: { type: 'bytes', id: 9 },
      },
    },
    ValueInfoProto: { fields: { name: { type: 'string', id: 1 }, type: { type: 'TypeProto', id: 2 } } },
    TypeProto: { fields: { tensorType: { type: 'TensorTypeProto', id: 1 } } },
    TensorTypeProto: { fields: { elemType: { type: 'int32', id: 1 }, shape: { type: 'TensorShapeProto', id: 2 } } },
    TensorShapeProto: { fields: { dim: { rule: 'repeated', type: 'DimensionProto', id: 1 } } },
    DimensionProto: { fields: { dimValue: { type: 'int64', id: 1 }, dimParam: { type: 'string', id: 2 } } },
  },
});

/** TensorProto.DataType. */
export const DATA_TYPE = { float32: 1, int32: 6, int64: 7, bool: 9, float16: 10 } as const;
export type DataType = (typeof DATA_TYPE)[keyof typeof DATA_TYPE];

/** AttributeProto.AttributeType. */
const ATTRIBUTE_TYPE = { integer: 2, text: 3, integers: 7 } as const;

export interface OnnxAttribute {
  readonly name: string;
  readonly type: number;
  readonly i?: number;
  readonly s?: Uint8Array;
  readonly ints?: readonly number[];
}

export interface OnnxNode {
  readonly input: readonly string[];
  readonly output: readonly string[];
  readonly name: string;
  readonly opType: string;
  readonly attribute: readonly OnnxAttribute[];
}

export interface OnnxTensor {
  readonly dims: readonly number[];
  readonly dataType: DataType;
  readonly name: string;
  readonly rawData: Uint8Array;
}

export interface OnnxValue {
  readonly name: string;
  readonly dataType: DataType;
  /** Absent: not said. A text is a size that may differ from run to run. */
  readonly shape?: readonly (number | string)[];
}

export interface OnnxGraph {
  readonly name: string;
  readonly nodes: readonly OnnxNode[];
  readonly initialisers: readonly OnnxTensor[];
  readonly inputs: readonly OnnxValue[];
  readonly outputs: readonly OnnxValue[];
}

export function attribute(name: string, value: number | string | readonly number[]): OnnxAttribute {
  if (typeof value === 'number') return { name, type: ATTRIBUTE_TYPE.integer, i: value };
  if (typeof value === 'string') return { name, type: ATTRIBUTE_TYPE.text, s: Buffer.from(value) };
  return { name, type: ATTRIBUTE_TYPE.integers, ints: value };
}

/** The bytes of an ONNX file, operator set 13. `metadata` is written into the file as key and value texts. */
export function encodeModel(graph: OnnxGraph, metadata: Readonly<Record<string, string>>): Uint8Array {
  return root
    .lookupType('ModelProto')
    .encode({
      irVersion: 8,
      producerName: 'selvedge',
      opsetImport: [{ domain: '', version: 13 }],
      metadataProps: Object.entries(metadata).map(([key, value]) => ({ key, value })),
      graph: {
        name: graph.name,
        node: graph.nodes,
        initializer: graph.initialisers,
        input: graph.inputs.map(encodeValue),
        output: graph.outputs.map(encodeValue),
      },
    })
    .finish();
}

function encodeValue({ name, dataType, shape }: OnnxValue): object {
  const dim = shape?.map((size) => (typeof size === 'number' ? { dimValue: size } : { dimParam: size }));
  return { name, type: { tensorType: { elemType: dataType, ...(dim && { shape: { dim } }) } } };
}
