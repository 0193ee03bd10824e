import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { effectiveEdges, isInsidePhoto } from '../geometry/crop.ts';
import type { Edges, Size } from '../geometry/shapes.ts';
import { heightOf, widthOf } from '../geometry/shapes.ts';
import { foundLength } from '../people/length-spans.ts';
import { standing, type Standing } from '../people/testing/standing.ts';
import { configure } from '../rules/configuration.ts';
import type { Scene } from '../rules/scene.ts';
import { withCrop } from '../rules/scene.ts';
import { scene } from '../rules/testing/scenes.ts';
import { carriedEdges, carryCrop } from './carry.ts';
import { ladder } from './ladder.ts';
import { foundPlaces } from '../people/places.ts';

const CONFIGURATION = configure();
const LARGE: Size = { width: 9000, height: 12_000 };

const SHAPES = [2 / 3, 4 / 5, 1, 3 / 2, undefined];
const ALONE = [person(1, { x: 4000 })];
const COUPLE = [person(1, { x: 3400 }), person(2, { x: 4700, height: 2700, headTop: 3200 })];

/** Every clean crop of the ladder that there is of one and of two people in a large photo. */
const CLEAN = [ALONE, COUPLE].flatMap((people) =>
  SHAPES.flatMap((shape) => {
    const whole = scene({ photo: LARGE, people, shape });
    const clean = ladder(whole, CONFIGURATION).filter(({ answer }) => answer.broken.length === 0);
    return clean.map(({ length, answer }) => ({ length, from: withCrop(whole, answer.edges) }));
  }),
);
const anyClean = fc.constantFrom(...CLEAN);

function person(id: number, change: Standing) {
  return standing({ photo: LARGE, height: 3000, headTop: 3000, id, arms: 'down', ...change });
}

/** The same people, so much larger and elsewhere: places in pixels. */
function moved(from: Scene, scale: number, x: number, y: number): Scene {
  const place = (across: number, down: number) => ({
    x: (across * LARGE.width * scale + x) / LARGE.width,
    y: (down * LARGE.height * scale + y) / LARGE.height,
  });
  const people = from.people.map((each) => {
    const [left, top, width, height] = each.box;
    const corner = place(left, top);
    return {
      ...each,
      box: [corner.x, corner.y, width * scale, height * scale] as const,
      points: Object.fromEntries(
        foundPlaces(each.points).map(([name, point]) => [name, { ...point, ...place(point.x, point.y) }]),
      ),
      ...(each.headTop && { headTop: { ...each.headTop, ...place(each.headTop.x, each.headTop.y) } }),
    };
  });
  return scene({ photo: LARGE, people, shape: from.shape });
}

/** Four decimals of the photo, and what free rounding of both ends can add. */
const STEP = 3;

function expectNear(edges: Edges, expected: Edges): void {
  for (const edge of ['left', 'top', 'right', 'bottom'] as const) {
    expect(Math.abs(edges[edge] - expected[edge]), edge).toBeLessThanOrEqual(STEP);
  }
}

describe('a crop that is carried to another frame', () => {
  test('is the same crop on the same people', () => {
    fc.assert(
      fc.property(anyClean, ({ from }) => {
        const to = scene({ photo: LARGE, people: from.people, shape: from.shape });
        const carried = carryCrop(from, to, CONFIGURATION);
        expect('crop' in carried && effectiveEdges(carried.crop, LARGE, 0)).toEqual(from.crop);
      }),
      { numRuns: 25 },
    );
  });

  test('is moved and scaled as the people are, where there is room', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        anyClean,
        fc.double({ min: 0.8, max: 1.25, noNaN: true }),
        fc.integer({ min: -1500, max: 2000 }),
        fc.integer({ min: -2000, max: 3000 }),
        ({ from, length }, scale, x, y) => {
          const to = moved(from, scale, x, y);
          const { left, top, right, bottom } = from.crop;
          const expected = {
            left: left * scale + x,
            top: top * scale + y,
            right: right * scale + x,
            bottom: bottom * scale + y,
          };
          expectNear(carriedEdges(from, to)!, expected);
          const clear = { left: expected.left - 20, top: expected.top - 20, right: expected.right + 20, bottom: expected.bottom + 20 }; // prettier-ignore
          if (!isInsidePhoto(clear, LARGE, 0) || Math.min(widthOf(expected), heightOf(expected)) < 600) return;
          const carried = carryCrop(from, to, CONFIGURATION);
          expect('crop' in carried && foundLength(to.tallest!, expected)).toBe(length);
          // The written crop is inside by up to a step; the search then moves it by no more than the rules ask.
          if ('crop' in carried) expectNear(effectiveEdges(carried.crop, LARGE, 0), expected);
          compared++;
        },
      ),
      { numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(15);
  });

  test('keeps the place on the body when the pose changes, not the numbers', () => {
    const from = scene({ people: [standing({})], shape: 2 / 3, left: 667, top: 1250, right: 2995, bottom: 4742 });
    const to = scene({ people: [standing({ x: 2200, headTop: 900, height: 3600 })], shape: 2 / 3 });
    const edges = carriedEdges(from, to)!;
    const gap = (crop: Edges, headTop: number) => (headTop - crop.top) / heightOf(crop);
    expect(gap(edges, 900)).toBeCloseTo(gap(from.crop, 1500), 3);
    const onThigh = ({ tallest }: Scene, y: number) => (y - tallest!.lines.hip) / (tallest!.lines.ankle - tallest!.lines.hip); // prettier-ignore
    expect(onThigh(to, edges.bottom)).toBeCloseTo(onThigh(from, from.crop.bottom), 3);
  });

  test('is moved until it breaks nothing where the photo ends, at the same length', () => {
    const { from } = CLEAN.find((each) => each.length === 'three-quarter' && each.from.shape === 1)!;
    const to = moved(from, 1, -from.crop.left - 150, 0);
    expect(isInsidePhoto(carriedEdges(from, to)!, LARGE, 0)).toBe(false);
    const carried = carryCrop(from, to, CONFIGURATION);
    const edges = 'crop' in carried && effectiveEdges(carried.crop, LARGE, 0);
    expect(edges && isInsidePhoto(edges, LARGE, 0)).toBe(true);
    expect(edges && foundLength(to.tallest!, edges)).toBe('three-quarter');
  });

  test('says why a frame cannot take it', () => {
    const from = scene({ people: [standing({})], shape: 2 / 3 });
    const two = scene({ people: [standing({}), standing({ id: 2, x: 3000 })], shape: 2 / 3 });
    expect(carryCrop(from, two, CONFIGURATION)).toEqual({ reason: '2 people count here, and one person counts there' });
    expect(carryCrop(scene({}), scene({}), CONFIGURATION)).toEqual({
      reason: 'nobody is there to carry the crop by',
    });
    const near = scene({ people: [standing({ headTop: 3500 })], shape: 2 / 3 });
    expect(carryCrop(from, near, CONFIGURATION)).toHaveProperty('reason');
  });
});
