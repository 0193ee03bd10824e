import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { figureOf } from './figure.ts';
import { narrowPlaces, widePlaces } from './narrow-places.ts';
import type { Person } from './person.ts';
import { insideAt } from './stretches.ts';
import { PHOTO, standing } from './testing/standing.ts';
import { profilePolygon, widthProfile, type Slice } from './width-profile.ts';

/** The standing figure with an outline that is so wide at these heights (pixels), the same on both sides. */
function shaped(halves: readonly (readonly [number, number])[], person: Person = standing()): Person {
  const side = (sign: number) =>
    halves.map(([y, half]) => ({ x: (2000 + sign * half) / PHOTO.width, y: y / PHOTO.height }));
  return { ...person, outline: [...side(1), ...side(-1).reverse()] };
}

const profile = (person: Person, degrees = 0): Slice[] => widthProfile(figureOf(person, PHOTO, degrees));
const ARMLESS = standing({ without: ['left_elbow', 'right_elbow', 'left_wrist', 'right_wrist'] });
const SKIRT = [[1500, 150], [2400, 400], [3000, 290], [3444, 390], [3900, 520], [3960, 290], [5564, 200]] as const; // prettier-ignore

describe('the width', () => {
  test('is what the outline measures across', () => {
    for (const { y, width, left, right } of profile(shaped([[1500, 300], [5564, 300]], ARMLESS))) {
      expect([width, left, right].map(Math.round)).toEqual([600, 1700, 2300]);
      expect(y).toBeGreaterThan(2292);
    }
  }); // prettier-ignore

  test('turned with the picture', () => {
    const turned = profile(shaped([[1500, 300], [5564, 300]], ARMLESS), 10);
    for (const { width } of turned.slice(2, -6)) expect(width).toBeCloseTo(600 / Math.cos((10 * Math.PI) / 180), 0);
  }); // prettier-ignore

  test('without arms that hang beside the body', () => {
    // The hands' outer side is at 660, the arms' middle at 520 to 560.
    const slices = profile(shaped([[1500, 150], [2292, 480], [3036, 600], [3620, 640], [3900, 600], [3960, 250], [5564, 220]]));
    for (const { y, width } of slices) if (y > 2900 && y < 3600) expect(width).toBeLessThan(2 * 480);
    for (const { y, width } of slices) if (y > 2900 && y < 3600) expect(width).toBeGreaterThan(2 * 380);
  }); // prettier-ignore

  test('without the gap between the legs', () => {
    const corners = [[2300, 1500], [2300, 5564], [2050, 5564], [2000, 3600], [1950, 5564], [1700, 5564], [1700, 1500]];
    const outline = corners.map(([x, y]) => ({ x: x! / PHOTO.width, y: y! / PHOTO.height }));
    const low = profile({ ...ARMLESS, outline }).find(({ y }) => y > 5000)!;
    const gap = (100 * (low.y - 3600)) / (5564 - 3600);
    expect(low.width).toBeCloseTo(600 - gap, 0);
    expect([low.left, low.right].map(Math.round)).toEqual([1700, 2300]);
  }); // prettier-ignore

  test('without a gap in the outline between arm and trunk', () => {
    const person = shaped([[1500, 700], [5564, 700]], ARMLESS);
    const gap = [[2300, 2400], [2600, 2400], [2600, 3000], [2300, 3000]];
    const gaps = [gap.map(([x, y]) => ({ x: x! / PHOTO.width, y: y! / PHOTO.height }))];
    const widths = profile({ ...person, gaps });
    for (const { y, right, width } of widths) {
      const isBeside = y > 2400 && y < 3000;
      expect([right, width].map(Math.round)).toEqual(isBeside ? [2300, 1000] : [2700, 1400]);
    }
    expect(widths.some(({ y }) => y > 2400 && y < 3000)).toBe(true);
  }); // prettier-ignore

  test('is not known without an outline, or without shoulders and hips', () => {
    expect(profile(standing())).toEqual([]);
    expect(profile(shaped(SKIRT, standing({ without: ['left_hip', 'right_hip'] })))).toEqual([]);
  });

  test('drawn, it is one closed line', () => {
    const slices = profile(shaped(SKIRT, ARMLESS));
    expect(profilePolygon(slices)).toHaveLength(2 * slices.length);
    expect(profilePolygon(slices)[0]).toEqual({ x: slices[0]!.left, y: slices[0]!.y });
  });
});

describe('wide and narrow places', () => {
  const slices = profile(shaped(SKIRT, ARMLESS));

  test('a hem is widest, and narrows under it', () => {
    const [wide, ...others] = widePlaces(slices, 4064, 0.12);
    expect(others).toEqual([]);
    expect(wide!.from).toBeLessThan(3850);
    expect(wide!.to).toBeGreaterThan(3860);
    expect(Math.abs(wide!.narrow - 3960)).toBeLessThan(64);
  });

  test('a waist is narrow', () => {
    const places = narrowPlaces(slices, 4064, 0.12);
    expect(places).toHaveLength(1);
    expect(Math.abs(places[0]! - 3000)).toBeLessThan(64);
  });

  test('what is as wide all along has neither', () => {
    const even = profile(shaped([[1500, 300], [5564, 300]], ARMLESS));
    expect(widePlaces(even, 4064, 0.12)).toEqual([]);
    expect(narrowPlaces(even, 4064, 0.12)).toEqual([]);
  }); // prettier-ignore
});

test('the stretches inside a polygon are those that counting crossings finds', () => {
  const place = fc.record({ x: fc.integer({ min: 0, max: 50 }), y: fc.integer({ min: 0, max: 50 }) });
  fc.assert(
    fc.property(fc.array(place, { minLength: 3, maxLength: 12 }), (corners) => {
      const heights = Array.from({ length: 25 }, (_, index) => index * 2 + 0.5);
      for (const [y, stretches] of insideAt(corners, heights)) {
        for (let x = 0.25; x < 50; x += 1) {
          let isInside = false;
          corners.forEach((a, index) => {
            const b = corners[(index + 1) % corners.length]!;
            if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) isInside = !isInside;
          });
          const isOnLine = stretches.flat().some((end) => Math.abs(end - x) < 1e-9);
          if (!isOnLine) expect(stretches.some(([from, to]) => x > from && x < to)).toBe(isInside);
        }
      }
    }),
  );
});
