import { createNativeRuntime } from './native.ts';
import type { Runtime, RuntimeKind } from './runtime.ts';
import { createWasmRuntime } from './wasm.ts';

/** What the environment variable `SELVEDGE_RUNTIME` asks for. */
export function askedRuntime(environment: Readonly<Record<string, string | undefined>>): RuntimeKind | undefined {
  const asked = environment['SELVEDGE_RUNTIME'];
  if (asked === undefined || asked === '') return undefined;
  if (asked === 'native' || asked === 'wasm') return asked;
  throw new Error(`SELVEDGE_RUNTIME is "${asked}"; it must be "native" or "wasm", or not be set.`);
}

/**
 * The runtime asked for, else the native one, else the WebAssembly one.
 * @throws Error when the runtime asked for does not load, or none does
 */
export async function chooseRuntime(asked?: RuntimeKind): Promise<Runtime> {
  if (asked === 'wasm') return createWasmRuntime();
  if (asked === 'native') return createNativeRuntime();
  try {
    return await createNativeRuntime();
  } catch {
    return createWasmRuntime();
  }
}
