import { describe, expect, test } from 'vitest';
import { lookingOf } from './looking.ts';
import type { Places } from './person.ts';

/** A head of round proportions, turned by so many degrees to the right of the picture and leaning by `lean`, seen from afar. */
function head(
  turn: number,
  lean = 0,
): Record<'nose' | 'left_eye' | 'right_eye' | 'left_ear' | 'right_ear', { x: number; y: number; confidence: number }> {
  const [sine, cosine] = [Math.sin((turn * Math.PI) / 180), Math.cos((turn * Math.PI) / 180)];
  const place = (across: number, forward: number, down: number) => {
    const x = across * cosine + forward * sine;
    const [s, c] = [Math.sin((lean * Math.PI) / 180), Math.cos((lean * Math.PI) / 180)];
    return { x: 100 + x * c - down * s, y: 100 + x * s + down * c, confidence: 0.9 };
  };
  // Centimetres on a head: ears 7.5 beside its axis, eyes 3.2, nose 12 in front of it, eyes 8.5.
  return {
    nose: place(0, 12, 3),
    left_eye: place(3.2, 8.5, 0),
    right_eye: place(-3.2, 8.5, 0),
    left_ear: place(7.5, 0, 1),
    right_ear: place(-7.5, 0, 1),
  };
}

describe.each([-20, 0, 20])('a head that leans by %d°', (lean) => {
  test.each([
    [-80, 'left'], [-45, 'left'], [-30, 'left'], [-15, 'ahead'], [0, 'ahead'], [15, 'ahead'], [30, 'right'], [80, 'right'],
  ] as const)('turned by %d° looks %s', (turn, expected) => {
    expect(lookingOf(head(turn, lean))).toBe(expected);
  }); // prettier-ignore
});

test.each([
  [-40, 'left'],
  [0, 'ahead'],
  [40, 'right'],
] as const)('without ears, turned by %d° it looks %s', (turn, expected) => {
  const { nose, left_eye, right_eye } = head(turn);
  expect(lookingOf({ nose, left_eye, right_eye })).toBe(expected);
});

test('who shows one ear looks away from it', () => {
  const { left_ear: hidden, ...left } = head(20);
  expect(hidden).toBeDefined();
  expect(lookingOf(left)).toBe('right');
});

test('a profile', () => {
  const { nose, right_eye, right_ear, left_eye, left_ear } = head(85);
  expect(lookingOf({ nose, right_eye, right_ear })).toBe('right');
  const other = head(-85);
  expect(lookingOf({ nose: other.nose, left_eye: other.left_eye, left_ear: other.left_ear })).toBe('left');
  expect(lookingOf({ left_eye, left_ear })).toBeUndefined();
});

test('without a nose, or with nothing else, nobody knows', () => {
  const { nose, ...rest } = head(40);
  expect(lookingOf(rest as Places)).toBeUndefined();
  expect(lookingOf({ nose })).toBeUndefined();
});
