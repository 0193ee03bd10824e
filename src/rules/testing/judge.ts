import type { Limit } from '../rule.ts';
import { expect } from 'vitest';

/** Every number that a limit is made of. */
export function numbersOf({ escapes, deeper, bound = 0, measure, arguments: words }: Limit): number[] {
  const spoken = Object.values(words).filter((word) => typeof word === 'number');
  const conditions = escapes.flatMap(({ left, top, right, bottom, atMost }) => [left, top, right, bottom, atMost]);
  const measures = [measure?.of, measure?.per].flatMap((linear) =>
    linear && linear !== 'short-side'
      ? [linear.left ?? 0, linear.top ?? 0, linear.right ?? 0, linear.bottom ?? 0, linear.constant]
      : [],
  );
  return [...conditions, ...measures, ...spoken, deeper, bound];
}

/** A full sentence without a hole in it, about where the line falls and never about the body. */
export function expectGoodWords(message: string): void {
  expect(message).toMatch(/^[A-Z].*\.$/);
  expect(message).not.toMatch(/undefined|NaN|Infinity|null|\[object|_| {2}/);
  expect(message).not.toMatch(/\b(fat|heavy|thick|ugly|amputat|chop|sever|decapitat|behead|mutilat|bad|wrong)/i);
}
