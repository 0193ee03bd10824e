import { createSession, type OnnxRuntime } from './onnx-session.ts';
import type { Runtime } from './runtime.ts';

interface WasmRuntime extends OnnxRuntime {
  readonly env: { readonly wasm: { numThreads: number } };
}

const OPTIONS = { executionProviders: ['wasm'], graphOptimizationLevel: 'all', logSeverityLevel: 3 };

/** The WebAssembly build of the runtime: the same numbers, several times slower, loads everywhere. */
export async function createWasmRuntime(): Promise<Runtime> {
  const module = (await import('onnxruntime-web/wasm')) as unknown as { default?: WasmRuntime } & WasmRuntime;
  const onnx = module.default ?? module;
  onnx.env.wasm.numThreads = 1;
  return { kind: 'wasm', load: (model) => createSession(onnx, model, OPTIONS) };
}
