import type { TextRange } from './manifest.ts';

/** Gives a range its new place. */
export type Move = (range: TextRange) => TextRange;

/** A copy of plain data (objects, arrays, maps) in which every text range is moved. */
export function relocate<T>(value: T, move: Move): T {
  return relocated(value, move) as T;
}

function relocated(value: unknown, move: Move): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (isRange(value)) return move(value);
  if (Array.isArray(value)) return value.map((item) => relocated(item, move));
  if (value instanceof Map) return new Map([...value].map(([key, item]) => [key, relocated(item, move)]));
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, relocated(item, move)]));
}

/** What says where something stands in a list, or in other text: it changes without the thing itself changing. */
const PLACE_ONLY = new Set(['index', 'occurrence', 'name', 'frame', 'origin']);

/**
 * Whether two pieces of plain data say the same, the second one standing `distance` further on in its text. Places in
 * the list and where aliases lead do not count.
 */
export function saysTheSame(one: unknown, other: unknown, distance: number): boolean {
  if (typeof one !== 'object' || one === null || typeof other !== 'object' || other === null) return one === other;
  if (isRange(one)) return isRange(other) && one.start + distance === other.start && one.end + distance === other.end;
  if (one instanceof Map) return other instanceof Map && saysTheSame([...one], [...other], distance);
  const entries = Object.entries(one).filter(([key]) => !PLACE_ONLY.has(key));
  const others = Object.entries(other).filter(([key]) => !PLACE_ONLY.has(key));
  return (
    entries.length === others.length &&
    entries.every(([key, value], at) => key === others[at]![0] && saysTheSame(value, others[at]![1], distance))
  );
}

function isRange(value: object): value is TextRange {
  return 'start' in value && 'end' in value && Object.keys(value).length === 2;
}
