import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ACTS, readFromSheet } from './sheet-messages.ts';

it('takes what the sheet says, and only the members that it knows', () => {
  expect(readFromSheet({ kind: 'ready', path: '/etc' })).toEqual({ kind: 'ready' });
  expect(readFromSheet({ kind: 'go', revision: 1, index: 2, isLeaving: true, uri: 'file:///etc' })).toEqual({
    kind: 'go',
    revision: 1,
    index: 2,
    isLeaving: true,
  });
  for (const act of ACTS) {
    expect(readFromSheet({ kind: 'act', revision: 3, act, indices: [0, 7], reason: 'x' })).toEqual({
      kind: 'act',
      revision: 3,
      act,
      indices: [0, 7],
    });
  }
});

it.each([
  undefined,
  'ready',
  [],
  { kind: 'open', path: '/etc/passwd' },
  { kind: 'act', revision: 1, act: 'delete', indices: [1] },
  { kind: 'act', revision: 1, act: 'toString', indices: [1] },
  { kind: 'act', revision: 1, act: 'fix', indices: ['../..'] },
  { kind: 'act', revision: 1, act: 'fix', indices: { length: 1, 0: 1 } },
  { kind: 'act', act: 'fix', indices: [1] },
  { kind: 'act', revision: 1, act: 'fix', indices: new Array(60_000).fill(1) },
  { kind: 'act', revision: 1, act: 'fix', indices: new Array(3) },
  { kind: 'seen', revision: 1, now: new Array(2000).fill(1), after: [] },
  { kind: 'seen', revision: 1, now: [1] },
  { kind: 'go', revision: 1, index: -1, isLeaving: false },
  { kind: 'go', revision: 1, index: 1.5, isLeaving: false },
  { kind: 'go', revision: 1, index: 1, isLeaving: 'yes' },
  { kind: 'write', leftOut: [Number.NaN] },
  { kind: 'needs-you', isWanted: 1 },
  { kind: 'cut-for', output: 1 },
  { kind: 'cut-for', output: 'a'.repeat(81) },
])('takes nothing else: %j', (message) => {
  expect(readFromSheet(message)).toBeUndefined();
});

it('whatever comes, only counts, switches and deeds of our own come through', () => {
  const counts = fc.oneof(fc.array(fc.nat()), fc.anything());
  const hostile = fc.record(
    {
      kind: fc.oneof(
        fc.constantFrom('ready', 'seen', 'go', 'act', 'write', 'needs-you', 'cut-for', 'undo'),
        fc.string(),
      ),
      revision: fc.oneof(fc.nat(), fc.anything()),
      index: fc.oneof(fc.nat(), fc.anything()),
      act: fc.oneof(fc.constantFrom<string>(...ACTS), fc.string()),
      isLeaving: fc.oneof(fc.boolean(), fc.anything()),
      isWanted: fc.oneof(fc.boolean(), fc.anything()),
      indices: counts,
      now: counts,
      after: counts,
      leftOut: counts,
      path: fc.string(),
    },
    { requiredKeys: ['kind'] },
  );
  const isPlain = (value: unknown): boolean =>
    typeof value === 'boolean' ||
    (Number.isSafeInteger(value) && (value as number) >= 0) ||
    (Array.isArray(value) && value.every(isPlain));
  fc.assert(
    fc.property(fc.oneof(hostile, fc.anything()), (message) => {
      const { kind, ...read } = readFromSheet(message) ?? { kind: 'ready' };
      expect(['ready', 'seen', 'go', 'act', 'write', 'needs-you', 'cut-for', 'undo', 'dismiss']).toContain(kind);
      const { act, ...others } = read as Record<string, unknown>;
      if (act !== undefined) expect(ACTS).toContain(act);
      expect(Object.values(others).every(isPlain)).toBe(true);
    }),
  );
});
