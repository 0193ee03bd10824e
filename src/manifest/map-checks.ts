import type { Located, ProblemCode, TextRange } from './manifest.ts';
import type { ReadValue } from './read-value.ts';
import type { MapSchema } from './schema-kinds.ts';

/** Says a problem of a map, and of which key; `message` is given the map's path, `''` for the whole. */
export type MapReport = (code: ProblemCode, message: (path: string) => string, range?: TextRange, key?: string) => void;

/** Checks which keys stand together: what is required, what excludes each other, of which one is needed. */
export function checkKeys(
  schema: MapSchema,
  entries: ReadonlyMap<string, Located<ReadValue>>,
  unread: ReadonlyMap<string, TextRange>,
  report: MapReport,
): void {
  const there = (key: string): boolean => entries.has(key) || unread.has(key);
  const missing: string[] = [];
  for (const [key, { required }] of schema.keys) if (required && !there(key)) missing.push(key);
  if (missing.length > 0) {
    const names = missing.join(', ');
    const examples = missing.map((key) => `${key}: ${schema.keys.get(key)!.example}`).join(', ');
    const are = missing.length === 1 ? 'is' : 'are';
    report(
      'missing-key',
      (path) => `${path === '' ? '' : `${path}: `}${names} ${are} missing: add ${examples}.`,
      undefined,
      missing[0],
    );
  }
  for (const [one, other] of schema.conflicts ?? []) {
    if (!there(one) || !there(other)) continue;
    report('conflict', (path) => `${path}: give ${one} or ${other}, not both.`, entries.get(other)?.key);
  }
  if (schema.anyOf && !schema.anyOf.some(there)) {
    report('missing-key', (path) => `${path}: give ${schema.anyOf!.join(' or ')}.`);
  }
}
