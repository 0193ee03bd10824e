import fc from 'fast-check';
import { expect, test } from 'vitest';
import { insidePhoto } from '../../geometry/crop.ts';
import { excess } from '../../geometry/half-space.ts';
import type { Edges, Size } from '../../geometry/shapes.ts';
import { lowestReach, type Held } from './reach.ts';

const photo = fc.constantFrom<Size>(
  { width: 4000, height: 6000 },
  { width: 6000, height: 4000 },
  { width: 3000, height: 3000 },
);
const degrees = fc.integer({ min: -800, max: 800 }).map((hundredths) => hundredths / 100);
const share = fc.double({ min: 0, max: 1, noNaN: true });
const held = fc
  .record({ photo, degrees, at: fc.tuple(share, share, share, share) })
  .map(({ at: [x, wide, y, gap], ...rest }) => {
    const { width, height } = rest.photo;
    const left = (0.1 + 0.5 * x) * width;
    const people: Held = {
      left,
      right: left + (0.05 + 0.25 * wide) * width,
      top: (0.05 + 0.3 * y) * height,
      overHead: 0.05 * gap,
    };
    return { ...rest, people };
  });

/** The crop of the photo's shape that reaches down to `bottom`, standing at `left`. */
function cropAt(size: Size, people: Held, bottom: number, left: number): Edges {
  const height = (bottom - people.top) / (1 - people.overHead);
  return { left, top: bottom - height, right: left + (height * size.width) / size.height, bottom };
}

/** By trying every place across. */
function fitsSomewhere(size: Size, turned: number, people: Held, bottom: number): boolean {
  const conditions = insidePhoto(size, turned);
  const isInside = (crop: Edges): boolean => conditions.every((condition) => excess(condition, crop) <= 1e-6);
  const { left, right } = cropAt(size, people, bottom, 0);
  const width = right - left;
  const [least, most] = [people.right - width, people.left];
  for (let step = 0; step <= 400; step++) {
    const at = least + ((most - least) * step) / 400;
    if (most >= least && isInside(cropAt(size, people, bottom, at))) return true;
  }
  return false;
}

test('a levelled crop reaches as far down as one that is tried out', () => {
  let compared = 0;
  fc.assert(
    fc.property(held, ({ photo: size, degrees: turned, people }) => {
      const reach = lowestReach(size, turned, people, size.height);
      if (reach === undefined) return;
      compared++;
      // What fits with a hair less must be found by trying; a little further down nothing fits.
      expect(fitsSomewhere(size, turned, people, reach - 0.004 * size.height)).toBe(true);
      if (reach < size.height) expect(fitsSomewhere(size, turned, people, reach + 2)).toBe(false);
    }),
    { numRuns: 150 },
  );
  expect(compared).toBeGreaterThan(50);
});

test('without turning, the photo’s own edge is reached where the head has its room', () => {
  const people: Held = { left: 1500, right: 2500, top: 600, overHead: 0.04 };
  expect(lowestReach({ width: 4000, height: 6000 }, 0, people, 5900)).toBe(5900);
  expect(lowestReach({ width: 4000, height: 6000 }, 0, people, 6000)).toBe(6000);
  expect(lowestReach({ width: 4000, height: 6000 }, 0, { ...people, top: -100 }, 5900)).toBeUndefined();
});
