import type { EdgeName } from '../geometry/shapes.ts';
import type { MessageArguments } from './rule.ts';

/** How a photographer names the four edges. */
export function edgeWords(edge: EdgeName): string {
  return EDGE_WORDS[edge];
}

/** `left edge`; `left and upper edges`; `left, upper and lower edges`. At least one edge. */
export function edgesWords(edges: readonly EdgeName[]): string {
  if (edges.length === 1) return edgeWords(edges[0]!);
  return `${listed(edges.map((edge) => edgeWords(edge).replace(/ edge$/, '')))} edges`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(parts: readonly (string | number)[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)!}`;
}

const EDGE_WORDS = { left: 'left edge', top: 'upper edge', right: 'right edge', bottom: 'lower edge' } as const;

/** `left_knee` → `left knee`. */
export function partWords(joint: string): string {
  let words = PART_WORDS.get(joint);
  if (words === undefined) PART_WORDS.set(joint, (words = joint.replaceAll('_', ' ')));
  return words;
}

const PART_WORDS = new Map<string, string>();

/** A percentage for reading: one decimal below twenty, where the bounds are. */
export function percent(value: number): string {
  const size = Math.abs(value);
  return `${size >= 20 ? size.toFixed(0) : String(Number(size.toFixed(1)))} %`;
}

/** A percentage beside its bound: never the same number where the bound is missed. */
export function percentBeside(value: number, bound: number): string {
  const size = Math.abs(value);
  const words = `${size >= 20 && Math.round(size) !== Math.round(Math.abs(bound)) ? size.toFixed(0) : String(Number(size.toFixed(1)))} %`;
  return words === `${String(bound)} %` ? `a hair off ${words}` : words;
}

/** Which side of a place the edge lies on, from the signed distance past it. */
export function sideWords(edge: EdgeName, value: number): string {
  if (edge === 'left' || edge === 'right') return value < 0 ? 'left of it' : 'right of it';
  return value < 0 ? 'above it' : 'below it';
}

/** "The lower edge cuts" or "The lower edge possibly cuts". */
export function verb(argument: MessageArguments, word: string): string {
  return argument['possible'] ? `possibly ${word}` : word;
}
