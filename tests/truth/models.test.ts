import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askedRuntime } from '../../src/vision/runtime/choose.ts';
import type { ModelName } from '../../src/vision/models/catalogue.ts';
import type { ModelSet } from '../../src/vision/models/model-set.ts';
import type { RuntimeKind, TensorValue } from '../../src/vision/runtime/runtime.ts';
import { loadModels } from './support/measured.ts';

/*
 * The converted models on a fixed made-up input. The expected numbers are what the native runtime gave when the
 * converter was written (the operators themselves are checked against numbers worked out by hand in
 * src/vision/convert/convert.test.ts, the models against labels in pixels.test.ts); both runtimes must give them.
 */
const EXPECTED: readonly [ModelName, number, 'int32' | 'float32', string, readonly number[]][] = [
  ['movenet-multipose', 256, 'int32', 'Identity', [0.3219, 0.6268, 0.0199, 0.3008, 0.6248, 0.0193]],
  ['movenet-thunder', 256, 'int32', 'Identity', [0.105, 0.954, 0.1268, 0.1616, 0.4848, 0.0038]],
  ['blazepose-heavy', 256, 'float32', 'Identity_2', [131.692, 56.0373, -4.8396, -8.3402, -8.7147, 132.257]],
  ['handlandmark-full', 224, 'float32', 'Identity', [113.814, 179.024, 0.0001, 109.751, 156.086, 6.6554]],
];

function madeUpInput(side: number, type: 'int32' | 'float32'): TensorValue {
  const bytes = Array.from({ length: side * side * 3 }, (_, index) => (index * 7919) % 256);
  const shape = [1, side, side, 3];
  if (type === 'int32') return { type, shape, values: Int32Array.from(bytes) };
  return { type, shape, values: Float32Array.from(bytes, (byte) => byte / 255) };
}

describe.each<RuntimeKind>(['native', 'wasm'])('converted models, %s runtime', (kind) => {
  let models: ModelSet;
  beforeAll(async () => {
    models = await loadModels(kind);
  }, 120_000);
  afterAll(() => models.release());

  it.each(EXPECTED)('%s', async (name, side, type, output, expected) => {
    const outputs = await models.run(name, madeUpInput(side, type));
    const numbers = Array.from(outputs.get(output)!.slice(0, expected.length));
    numbers.forEach((number, index) => {
      expect(Math.abs(number - expected[index]!)).toBeLessThan(1e-3 * Math.max(1, Math.abs(expected[index]!)));
    });
    expect(numbers).toHaveLength(expected.length);
  });
});

describe('the runtime asked for', () => {
  it('comes from SELVEDGE_RUNTIME, which must be a known one', () => {
    expect(askedRuntime({})).toBeUndefined();
    expect(askedRuntime({ SELVEDGE_RUNTIME: 'wasm' })).toBe('wasm');
    expect(() => askedRuntime({ SELVEDGE_RUNTIME: 'gpu' })).toThrow('"native" or "wasm"');
  });
});
