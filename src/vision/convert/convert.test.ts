import { describe, expect, it } from 'vitest';
import { createNativeRuntime } from '../runtime/native.ts';
import { createWasmRuntime } from '../runtime/wasm.ts';
import type { TensorValue } from '../runtime/runtime.ts';
import { convertGraphModel } from './convert.ts';
import type { GraphAttribute, GraphModelFile, GraphNode, WeightEntry } from './graph.ts';

interface Weight {
  readonly entry: WeightEntry;
  readonly bytes: Uint8Array;
}

function floats(name: string, shape: number[], values: number[]): Weight {
  return { entry: { name, shape, dtype: 'float32' }, bytes: new Uint8Array(Float32Array.from(values).buffer) };
}

function integers(name: string, shape: number[], values: number[]): Weight {
  return { entry: { name, shape, dtype: 'int32' }, bytes: new Uint8Array(Int32Array.from(values).buffer) };
}

const text = (value: string): GraphAttribute => ({ s: Buffer.from(value).toString('base64') });
const list = (...i: number[]): GraphAttribute => ({ list: { i: i.map(String) } });

function picture(...sizes: number[]): GraphNode {
  return {
    name: 'in',
    op: 'Placeholder',
    attr: { dtype: { type: 'DT_FLOAT' }, shape: { shape: { dim: sizes.map((size) => ({ size })) } } },
  };
}

async function runGraph(
  nodes: GraphNode[],
  weights: Weight[],
  input: TensorValue,
  runtime = createNativeRuntime(),
): Promise<number[]> {
  const constants = weights.map(({ entry }): GraphNode => ({ name: entry.name, op: 'Const' }));
  const file: GraphModelFile = {
    modelTopology: { node: [...constants, ...nodes] },
    weightsManifest: [{ paths: ['weights.bin'], weights: weights.map(({ entry }) => entry) }],
    signature: { outputs: { result: { name: `${nodes.at(-1)!.name}:0` } } },
  };
  const model = convertGraphModel(file, Buffer.concat(weights.map(({ bytes }) => bytes)), { name: 'test' });
  const loaded = await (await runtime).load(model);
  const outputs = await loaded.run(input);
  await loaded.release();
  return Array.from(outputs.get(nodes.at(-1)!.name)!);
}

const input = (shape: number[], ...values: number[]): TensorValue => ({
  type: 'float32',
  shape,
  values: Float32Array.from(values),
});

describe('convertGraphModel', () => {
  // A 2 by 2 picture with two channels; a 1 by 1 kernel that gives (a + 2b, 10a) plus a bias, cut at six.
  const convolution: GraphNode = {
    name: 'out',
    op: '_FusedConv2D',
    input: ['in', 'kernel', 'bias'],
    attr: {
      strides: list(1, 1, 1, 1),
      padding: text('SAME'),
      fused_ops: { list: { s: ['BiasAdd', 'Relu6'].map((name) => Buffer.from(name).toString('base64')) } },
    },
  };
  const pixels = input([1, 2, 2, 2], 1, 0, 0, 1, 0.5, 0.5, -1, 0);
  const expected = [1.5, 6, 2.5, 0, 2, 5, 0, 0];

  it.each([
    ['native', createNativeRuntime],
    ['WebAssembly', createWasmRuntime],
  ])('convolves with bias and a cut at six (%s runtime)', async (_, create) => {
    const weights = [floats('kernel', [1, 1, 2, 2], [1, 10, 2, 0]), floats('bias', [2], [0.5, 0])];
    expect(await runGraph([picture(1, 2, 2, 2), convolution], weights, pixels, create())).toEqual(expected);
  });

  it('computes the same from half-precision weights, which are exact for these numbers', async () => {
    // 1, 10, 2, 0 as IEEE 754 half-precision bits.
    const kernel = {
      entry: { name: 'kernel', shape: [1, 1, 2, 2], dtype: 'float32', quantization: { dtype: 'float16' } },
      bytes: new Uint8Array(Uint16Array.of(0x3c00, 0x4900, 0x4000, 0).buffer),
    };
    const weights = [kernel, floats('bias', [2], [0.5, 0])];
    expect(await runGraph([picture(1, 2, 2, 2), convolution], weights, pixels)).toEqual(expected);
  });

  it('widens 8 bit weights by scale and least value', async () => {
    const kernel = {
      entry: {
        name: 'kernel',
        shape: [1, 1, 2, 2],
        dtype: 'float32',
        quantization: { dtype: 'uint8', scale: 2, min: -8 },
      },
      bytes: Uint8Array.of(4, 9, 5, 4),
    };
    // The kernel is 0, 10, 2, 0.
    expect(await runGraph([picture(1, 2, 2, 2), convolution], [kernel, floats('bias', [2], [0.5, 0])], pixels)).toEqual(
      [0.5, 6, 2.5, 0, 1.5, 5, 0.5, 0],
    );
  });

  it('keeps channels apart in a depthwise convolution and pads at the end for SAME with stride 2', async () => {
    const node: GraphNode = {
      name: 'out',
      op: 'DepthwiseConv2dNative',
      input: ['in', 'kernel'],
      attr: { strides: list(1, 2, 2, 1), padding: text('SAME') },
    };
    // Kernel 2 by 2: channel one sums, channel two takes the top left.
    const kernel = floats('kernel', [2, 2, 2, 1], [1, 1, 1, 0, 1, 0, 1, 0]);
    const three = input([1, 3, 3, 2], 1, 10, 2, 20, 3, 30, 4, 40, 5, 50, 6, 60, 7, 70, 8, 80, 9, 90);
    expect(await runGraph([picture(1, 3, 3, 2), node], [kernel], three)).toEqual([12, 10, 9, 30, 15, 70, 9, 90]);
  });

  it('turns a picture back before it is reshaped, so that numbers stay in the source order', async () => {
    const nodes: GraphNode[] = [
      picture(1, 2, 2, 2),
      {
        name: 'pool',
        op: 'MaxPool',
        input: ['in'],
        attr: { ksize: list(1, 1, 1, 1), strides: list(1, 1, 1, 1), padding: text('VALID') },
      },
      { name: 'out', op: 'Reshape', input: ['pool', 'shape'] },
    ];
    const numbers = input([1, 2, 2, 2], 1, 2, 3, 4, 5, 6, 7, 8);
    expect(await runGraph(nodes, [integers('shape', [2], [4, 2])], numbers)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('spreads one number a channel over a picture that lies channels first', async () => {
    const nodes: GraphNode[] = [
      picture(1, 1, 2, 2),
      {
        name: 'pool',
        op: 'MaxPool',
        input: ['in'],
        attr: { ksize: list(1, 1, 1, 1), strides: list(1, 1, 1, 1), padding: text('VALID') },
      },
      { name: 'out', op: 'Mul', input: ['pool', 'factors'] },
    ];
    expect(await runGraph(nodes, [floats('factors', [2], [10, 100])], input([1, 1, 2, 2], 1, 2, 3, 4))).toEqual([
      10, 200, 30, 400,
    ]);
  });

  it('slices with dropped axes', async () => {
    const node: GraphNode = {
      name: 'out',
      op: 'StridedSlice',
      input: ['in', 'begin', 'end', 'steps'],
      attr: { shrink_axis_mask: { i: '1' }, begin_mask: { i: '2' }, end_mask: { i: '0' } },
    };
    const bounds = [integers('begin', [2], [1, 9]), integers('end', [2], [2, 2]), integers('steps', [2], [1, 1])];
    expect(await runGraph([picture(2, 3), node], bounds, input([2, 3], 1, 2, 3, 4, 5, 6))).toEqual([4, 5]);
  });

  it('names the operator it does not support', () => {
    const file: GraphModelFile = {
      modelTopology: { node: [picture(1), { name: 'out', op: 'Fourier', input: ['in'] }] },
      weightsManifest: [],
    };
    expect(() => convertGraphModel(file, new Uint8Array(), { name: 'test' })).toThrow(
      'does not support the operator "Fourier"',
    );
  });

  it('says which weight is missing when the weight file is cut short', () => {
    const weight = floats('kernel', [4], [1, 2, 3, 4]);
    const file: GraphModelFile = {
      modelTopology: { node: [] },
      weightsManifest: [{ paths: [], weights: [weight.entry] }],
    };
    expect(() => convertGraphModel(file, weight.bytes.subarray(0, 8), { name: 'test' })).toThrow(
      'ends before "kernel"',
    );
  });
});
