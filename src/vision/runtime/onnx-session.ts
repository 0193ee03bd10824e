import type { LoadedModel, TensorValue } from './runtime.ts';

/** The part of an ONNX runtime that both builds share; their type files differ only in name. */
export interface OnnxRuntime {
  readonly InferenceSession: {
    create(model: Uint8Array, options: object): Promise<OnnxSession>;
  };
  readonly Tensor: new (
    type: 'float32' | 'int32',
    values: Float32Array | Int32Array,
    shape: readonly number[],
  ) => OnnxTensor;
}

interface OnnxTensor {
  readonly data: unknown;
  dispose(): void;
}

interface OnnxSession {
  readonly inputNames: readonly string[];
  run(feeds: Record<string, OnnxTensor>): Promise<Record<string, OnnxTensor>>;
  release(): Promise<void>;
}

/** The converter marks outputs so; the caller sees the source model's names. */
const OUTPUT_PREFIX = 'output/';

export async function createSession(runtime: OnnxRuntime, model: Uint8Array, options: object): Promise<LoadedModel> {
  const session = await runtime.InferenceSession.create(model, options);
  const inputName = session.inputNames[0]!;
  return {
    async run(input: TensorValue) {
      const tensor = new runtime.Tensor(input.type, input.values, [...input.shape]);
      const results = await session.run({ [inputName]: tensor });
      tensor.dispose();
      const outputs = new Map<string, Float32Array>();
      for (const [name, result] of Object.entries(results)) {
        outputs.set(name.slice(OUTPUT_PREFIX.length), (result.data as Float32Array).slice());
        result.dispose();
      }
      return outputs;
    },
    release: () => session.release(),
  };
}
