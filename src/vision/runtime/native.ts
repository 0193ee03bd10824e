import { createSession, type OnnxRuntime } from './onnx-session.ts';
import type { Runtime } from './runtime.ts';

const OPTIONS = {
  executionProviders: ['cpu'],
  // One thread a worker: the workroom runs one worker a core, and more threads cost more in all (VISION figures).
  intraOpNumThreads: 1,
  interOpNumThreads: 1,
  // Keeps a worker's memory about 150 MB lower at the same speed.
  enableCpuMemArena: false,
  // Errors only: warnings about folded constants are noise to a photographer.
  logSeverityLevel: 3,
};

/** @throws Error when the native library does not load on this machine */
export async function createNativeRuntime(): Promise<Runtime> {
  const module = (await import('onnxruntime-node')) as unknown as { default?: OnnxRuntime } & OnnxRuntime;
  const onnx = module.default ?? module;
  return { kind: 'native', load: (model) => createSession(onnx, model, OPTIONS) };
}
