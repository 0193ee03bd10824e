import type { WeightEntry, WeightsGroup } from './graph.ts';

/** `float16` holds the bits of IEEE 754 half-precision numbers. */
export type TensorData =
  | { readonly kind: 'float16'; readonly values: Uint16Array }
  | { readonly kind: 'float32'; readonly values: Float32Array }
  | { readonly kind: 'int32'; readonly values: Int32Array }
  | { readonly kind: 'bool'; readonly values: Uint8Array };

export interface Tensor {
  readonly shape: readonly number[];
  readonly data: TensorData;
}

/**
 * The weights of a TensorFlow.js graph model by name. Half-precision weights stay as they are (nothing is lost);
 * 8 and 16 bit quantised ones become `value · scale + min` in single precision.
 * @param bytes the weight files of the manifest, one after the other
 * @throws Error when the bytes are fewer than the manifest says, or of a kind that is not known here
 */
export function readWeights(groups: readonly WeightsGroup[], bytes: Uint8Array): Map<string, Tensor> {
  const tensors = new Map<string, Tensor>();
  let offset = 0;
  for (const entry of groups.flatMap((group) => group.weights)) {
    const count = entry.shape.reduce((product, size) => product * size, 1);
    const length = count * bytesPerValue(entry);
    if (offset + length > bytes.length) throw new Error(`The weight file ends before "${entry.name}".`);
    // A copy, because typed arrays want their numbers aligned.
    tensors.set(entry.name, {
      shape: entry.shape,
      data: decode(entry, new Uint8Array(bytes.subarray(offset, offset + length)).buffer),
    });
    offset += length;
  }
  return tensors;
}

function bytesPerValue(entry: WeightEntry): number {
  const stored = entry.quantization?.dtype ?? entry.dtype;
  const size = { float32: 4, int32: 4, float16: 2, uint16: 2, uint8: 1, bool: 1 }[stored];
  if (size === undefined)
    throw new Error(`The weight "${entry.name}" is stored as "${stored}", which is not known here.`);
  return size;
}

function decode(entry: WeightEntry, buffer: ArrayBuffer): TensorData {
  const { quantization } = entry;
  if (quantization?.dtype === 'float16') return { kind: 'float16', values: new Uint16Array(buffer) };
  if (quantization !== undefined) {
    const stored = quantization.dtype === 'uint8' ? new Uint8Array(buffer) : new Uint16Array(buffer);
    const scale = quantization.scale ?? 1;
    const least = quantization.min ?? 0;
    const values = Float32Array.from(stored, (value) => value * scale + least);
    return entry.dtype === 'int32'
      ? { kind: 'int32', values: Int32Array.from(values, Math.round) }
      : { kind: 'float32', values };
  }
  if (entry.dtype === 'int32') return { kind: 'int32', values: new Int32Array(buffer) };
  if (entry.dtype === 'bool') return { kind: 'bool', values: new Uint8Array(buffer) };
  return { kind: 'float32', values: new Float32Array(buffer) };
}

/**
 * The tensor with its axes in another order.
 * @param order for each axis of the result, the axis of `tensor` it comes from
 */
export function transpose(tensor: Tensor, order: readonly number[]): Tensor {
  const shape = order.map((axis) => tensor.shape[axis]!);
  const strides = stridesOf(tensor.shape);
  const steps = order.map((axis) => strides[axis]!);
  const from = tensor.data.values;
  const to = from.slice();
  const place = shape.map(() => 0);
  let source = 0;
  for (let target = 0; target < to.length; target++) {
    to[target] = from[source]!;
    for (let axis = shape.length - 1; axis >= 0; axis--) {
      source += steps[axis]!;
      place[axis]!++;
      if (place[axis]! < shape[axis]!) break;
      source -= steps[axis]! * shape[axis]!;
      place[axis] = 0;
    }
  }
  return { shape, data: { kind: tensor.data.kind, values: to } as TensorData };
}

function stridesOf(shape: readonly number[]): number[] {
  const strides = shape.map(() => 1);
  for (let axis = shape.length - 2; axis >= 0; axis--) strides[axis] = strides[axis + 1]! * shape[axis + 1]!;
  return strides;
}
