import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { LoadedModel, Runtime, TensorValue } from '../runtime/runtime.ts';
import { MODEL_NAMES, type ModelName } from './catalogue.ts';

export type ModelOutputs = ReadonlyMap<string, Float32Array>;

/** The models, loaded when first used and kept until `release`. */
export class ModelSet {
  readonly #runtime: Runtime;
  readonly #folder: string;
  readonly #loaded = new Map<ModelName, Promise<LoadedModel>>();

  /** @param folder the folder with the converted models (`NAME.onnx`) */
  constructor(runtime: Runtime, folder: string) {
    this.#runtime = runtime;
    this.#folder = folder;
  }

  async run(name: ModelName, input: TensorValue): Promise<ModelOutputs> {
    const model = await this.#load(name);
    return model.run(input);
  }

  /** Loads every model now, so that the first photo is not slower than the others. */
  async loadAll(): Promise<void> {
    for (const name of MODEL_NAMES) await this.#load(name);
  }

  async release(): Promise<void> {
    for (const model of this.#loaded.values()) await (await model).release();
    this.#loaded.clear();
  }

  #load(name: ModelName): Promise<LoadedModel> {
    let model = this.#loaded.get(name);
    if (model === undefined) {
      model = this.#read(name);
      this.#loaded.set(name, model);
    }
    return model;
  }

  async #read(name: ModelName): Promise<LoadedModel> {
    const file = join(this.#folder, `${name}.onnx`);
    let bytes: Uint8Array;
    try {
      bytes = await readFile(file);
    } catch (cause) {
      throw new Error(`The model "${name}" is missing (${file}). Build the models first: npm run build.`, { cause });
    }
    return this.#runtime.load(bytes);
  }
}

export function outputOf(outputs: ModelOutputs, name: string): Float32Array {
  const output = outputs.get(name);
  if (output === undefined) throw new Error(`The model gave no output "${name}".`);
  return output;
}

/** Samples (0 to 255) as whole numbers, written over the samples: both have four bytes a number. */
export function byteTensor(samples: Float32Array, height: number, width: number): TensorValue {
  const values = new Int32Array(samples.buffer, samples.byteOffset, samples.length);
  for (let index = 0; index < values.length; index++) values[index] = samples[index]! + 0.5;
  return { type: 'int32', shape: [1, height, width, 3], values };
}

/** Samples (0 to 255) as numbers from 0 to 1, written over the samples. */
export function unitTensor(samples: Float32Array, side: number): TensorValue {
  for (let index = 0; index < samples.length; index++) samples[index]! /= 255;
  return { type: 'float32', shape: [1, side, side, 3], values: samples };
}

export function sigmoid(value: number): number {
  return 1 / (1 + Math.exp(-value));
}
