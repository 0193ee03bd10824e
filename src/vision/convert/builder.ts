import { resultName, type GraphNode } from './graph.ts';
import { attribute, DATA_TYPE, type DataType, type OnnxNode, type OnnxTensor } from './onnx-schema.ts';
import { transpose, type Tensor } from './weights.ts';

/**
 * TensorFlow keeps pictures as rows, columns, channels; ONNX convolutions want channels first. A value knows how it
 * lies, so that a picture is turned over only where an operator needs the other way.
 */
type Layout = 'as-in-source' | 'channels-first';

interface Value {
  readonly name: string;
  readonly layout: Layout;
}

/** Collects the nodes and constants of the ONNX graph while the source graph is walked. */
export class GraphBuilder {
  readonly nodes: OnnxNode[] = [];
  readonly initialisers: OnnxTensor[] = [];
  readonly #weights: ReadonlyMap<string, Tensor>;
  readonly #values = new Map<string, Value>();
  readonly #turned = new Map<string, string>();
  readonly #constants = new Map<string, string>();
  #count = 0;

  constructor(weights: ReadonlyMap<string, Tensor>) {
    this.#weights = weights;
  }

  /** Adds one node with one result and gives the result's name. */
  add(
    opType: string,
    inputs: readonly string[],
    attributes: Record<string, number | string | readonly number[]> = {},
  ): string {
    return this.addMany(opType, inputs, attributes, 1)[0]!;
  }

  addMany(
    opType: string,
    inputs: readonly string[],
    attributes: Record<string, number | string | readonly number[]>,
    results: number,
  ): string[] {
    const name = `${opType}_${this.#count++}`;
    const output = Array.from({ length: results }, (_, index) => `${name}_${index}`);
    const attributeList = Object.entries(attributes).map(([key, value]) => attribute(key, value));
    this.nodes.push({ input: inputs, output, name, opType, attribute: attributeList });
    return output;
  }

  cast(input: string, to: DataType): string {
    return this.add('Cast', [input], { to });
  }

  /** A constant list of 64 bit integers, as ONNX wants shapes and axes. */
  integers(values: readonly number[]): string {
    const key = `integers ${values.join(' ')}`;
    return this.#constant(key, [values.length], DATA_TYPE.int64, BigInt64Array.from(values.map(BigInt)));
  }

  scalar(value: number): string {
    return this.#constant(`scalar ${value}`, [], DATA_TYPE.float32, Float32Array.of(value));
  }

  /** A weight as an input of a node. Half-precision ones are widened by a Cast that the runtime does once, on loading. */
  weight(name: string, tensor: Tensor): string {
    const { kind, values } = tensor.data;
    const stored = this.#constant(`weight ${name}`, tensor.shape, DATA_TYPE[kind], values);
    if (kind !== 'float16') return stored;
    const known = this.#turned.get(stored);
    if (known !== undefined) return known;
    const wide = this.cast(stored, DATA_TYPE.float32);
    this.#turned.set(stored, wide);
    return wide;
  }

  #constant(key: string, dims: readonly number[], dataType: DataType, values: ArrayBufferView): string {
    const known = this.#constants.get(key);
    if (known !== undefined) return known;
    const name = `constant_${this.#constants.size}`;
    const rawData = new Uint8Array(values.buffer, values.byteOffset, values.byteLength);
    this.initialisers.push({ dims, dataType, name, rawData });
    this.#constants.set(key, name);
    return name;
  }

  /** The constant behind an input, when it is one. */
  constantOf(input: string): Tensor | undefined {
    return this.#weights.get(resultName(input));
  }

  /** The numbers of an input that must be constant (axes, sizes, paddings). */
  numbersOf(input: string): number[] {
    const tensor = this.constantOf(input);
    if (tensor === undefined || tensor.data.kind === 'float16') {
      throw new Error(`The converter needs "${input}" to be a constant list of numbers.`);
    }
    return Array.from(tensor.data.values);
  }

  set(name: string, value: string, layout: Layout = 'as-in-source'): void {
    this.#values.set(name, { name: value, layout });
  }

  get(input: string): Value {
    const name = resultName(input);
    const known = this.#values.get(name);
    if (known !== undefined) return known;
    const tensor = this.#weights.get(name);
    if (tensor === undefined) throw new Error(`The converter has no value for "${input}".`);
    const value: Value = { name: this.weight(name, tensor), layout: 'as-in-source' };
    this.#values.set(name, value);
    return value;
  }

  /** An input as it lies in the source graph. */
  source(input: string): string {
    const value = this.get(input);
    return value.layout === 'as-in-source' ? value.name : this.#turn(value.name, [0, 2, 3, 1]);
  }

  channelsFirst(input: string): string {
    const value = this.get(input);
    return value.layout === 'channels-first' ? value.name : this.#turn(value.name, [0, 3, 1, 2]);
  }

  isChannelsFirst(input: string): boolean {
    return this.get(input).layout === 'channels-first';
  }

  #turn(name: string, perm: readonly number[]): string {
    const known = this.#turned.get(name);
    if (known !== undefined) return known;
    const turned = this.add('Transpose', [name], { perm });
    this.#turned.set(name, turned);
    return turned;
  }

  /** A constant with one number a channel, shaped to be spread over a channels-first picture. */
  perChannel(input: string): string | undefined {
    const tensor = this.constantOf(input);
    if (tensor === undefined) return undefined;
    const count = tensor.data.values.length;
    if (count !== 1 && count !== tensor.shape.at(-1)) return undefined;
    return this.weight(`${resultName(input)} per channel`, { shape: [count, 1, 1], data: tensor.data });
  }

  /** A convolution kernel with its axes in the order ONNX wants. */
  kernel(
    input: string,
    order: readonly number[],
  ): { name: string; height: number; width: number; shape: readonly number[] } {
    const tensor = this.constantOf(input);
    if (tensor === undefined) throw new Error(`The converter needs the kernel "${input}" to be constant.`);
    const [height, width] = tensor.shape;
    if (height === undefined || width === undefined) throw new Error(`The kernel "${input}" has no height and width.`);
    const name = this.weight(`${resultName(input)} ${order.join('')}`, transpose(tensor, order));
    return { name, height, width, shape: tensor.shape };
  }
}

/** Writes one source node into the graph. */
export type Operator = (builder: GraphBuilder, node: GraphNode, inputs: readonly string[]) => void;
