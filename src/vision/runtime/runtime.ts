/** Numbers with a shape, as models take and give them. */
export type TensorValue =
  | { readonly type: 'float32'; readonly shape: readonly number[]; readonly values: Float32Array }
  | { readonly type: 'int32'; readonly shape: readonly number[]; readonly values: Int32Array };

export interface LoadedModel {
  /** Runs the model on its only input and gives every output by its name. */
  run(input: TensorValue): Promise<ReadonlyMap<string, Float32Array>>;
  /** Frees what the model holds. */
  release(): Promise<void>;
}

export type RuntimeKind = 'native' | 'wasm';

/** What runs models: the native ONNX runtime, or its WebAssembly build where that does not load. */
export interface Runtime {
  readonly kind: RuntimeKind;
  /** @param model the bytes of an ONNX file */
  load(model: Uint8Array): Promise<LoadedModel>;
}
