import { expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { checkScene } from '../report.ts';
import { only, scene } from '../testing/scenes.ts';

const NONE = { x: 0, y: 0 };

function said(inches: number | undefined, settings = {}): string[] {
  // The standing figure's crop is 2800 × 4200 pixels here.
  const frame = scene({
    people: [standing()],
    left: 600,
    right: 3400,
    top: 1200,
    bottom: 5400,
    ...(inches !== undefined && { print: { inches, bleed: NONE, safe: NONE } }),
  });
  return checkScene(frame, only('print-resolution', { settings })).map(({ message }) => message);
}

test('is silent where nothing is printed', () => {
  expect(said(undefined)).toEqual([]);
});

// DESIGN, "Rules": up to 30 cm warned under 180, to 60 cm 130, larger 90.
test.each([
  [11.8, 0],
  [23.3, 0],
  [23.7, 0],
  [46, 0],
  [47, 1],
])('a long side of %f inches', (inches, times) => {
  expect(said(inches)).toHaveLength(times);
});

test('a setting of its own', () => {
  expect(said(11.8, { small: 400 })).toEqual([
    'The crop gives 356 pixels per inch of paper; a print of this size wants 400 at least, and is good from 533. Open the crop, or print smaller.',
  ]);
});
