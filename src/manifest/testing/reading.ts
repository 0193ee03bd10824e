import { expect } from 'vitest';
import type { Manifest, Problem, TextRange } from '../manifest.ts';

/** A manifest with these lines under `frames:`. */
export function framed(...lines: string[]): string {
  return ['selvedge: 1', 'frames:', ...lines, ''].join('\n');
}

export function textAt(manifest: Manifest, range: TextRange): string {
  return manifest.text.slice(range.start, range.end);
}

/** The manifest's one problem; fails when it has none, or more. */
export function only(manifest: Manifest): Problem {
  expect(manifest.problems).toHaveLength(1);
  return manifest.problems[0]!;
}

/** Place in the list and name of every frame. */
export function names(manifest: Manifest): string[] {
  return manifest.frames.map(({ index, name }) => `${index} ${name}`);
}
