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

  /** @param input is not held any longer than the run takes */
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

export function sigmoid(value: number): number {
  return 1 / (1 + Math.exp(-value));
}
