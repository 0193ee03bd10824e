import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { turnPoint } from '../geometry/turning.ts';
import { figureOf, isFaceInCrop, isInCrop } from './figure.ts';
import { anybody } from './testing/anybody.ts';
import { PHOTO, standing } from './testing/standing.ts';

const figure = figureOf(standing({ toes: true, outlined: true }), PHOTO, 0);
const whole = { left: 0, top: 0, right: 4000, bottom: 6000 };

test('fractions become pixels', () => {
  expect(figure.points.left_knee).toEqual({ x: 2180, y: expect.closeTo(4424, 6) as number, confidence: 0.95 });
});

test('in a turned picture every place is turned with it', () => {
  const turned = figureOf(standing(), PHOTO, 7);
  const { x, y } = turnPoint({ x: 2180, y: 4424 }, PHOTO, 7);
  expect(turned.points.left_knee?.x).toBeCloseTo(x, 6);
  expect(turned.points.left_knee?.y).toBeCloseTo(y, 6);
});

describe('what is sure enough to speak about', () => {
  test('0.4 is, less is not', () => {
    const sureness = { left_knee: 0.4, right_knee: 0.39, head_top: 0.2 };
    const { points, headTop, lines } = figureOf(standing({ sureness }), PHOTO, 0);
    expect(points.left_knee).toBeDefined();
    expect(points.right_knee).toBeUndefined();
    expect(headTop).toBe(lines.estimatedHeadTop);
  });
});

describe('the lines of a body', () => {
  test('as measured', () => {
    const { lines, height } = figure;
    const heights = [lines.headTop, lines.eyes, lines.shoulder, lines.hip, lines.ankle, lines.sole];
    expect(heights.map(Math.round)).toEqual([1500, 1820, 2292, 3444, 5408, 5564]);
    expect(height).toBeCloseTo(4064, 6);
  });

  test('by the proportions where parts were not found', () => {
    // What is left out of the standing figure comes back where it was, since it was drawn by the same proportions.
    const without = [
      'left_hip',
      'right_hip',
      'left_knee',
      'right_knee',
      'left_ankle',
      'right_ankle',
      'head_top',
    ] as const;
    const { lines } = figureOf(standing({ without }), PHOTO, 0);
    expect([lines.headTop, lines.hip, lines.ankle, lines.sole].map(Math.round)).toEqual([1500, 3444, 5408, 5564]);
    expect(lines.hemHidesFeet).toBe(false);
  });

  test('of anybody stand in order and are finite', () => {
    fc.assert(
      fc.property(anybody, fc.integer({ min: -45, max: 45 }), (person, degrees) => {
        const { lines, height } = figureOf(person, PHOTO, degrees);
        const heights = [lines.headTop, lines.eyes, lines.shoulder, lines.hip, lines.ankle, lines.sole];
        expect(heights.every(Number.isFinite)).toBe(true);
        for (const [index, value] of heights.slice(1).entries()) expect(value).toBeGreaterThanOrEqual(heights[index]!);
        expect(height).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test('a hem hides feet only where an outline goes far below the hips and no foot was found', () => {
    const hides = (options: Parameters<typeof standing>[0]) => figureOf(standing(options), PHOTO, 0).lines.hemHidesFeet;
    const without = ['left_ankle', 'right_ankle'] as const;
    expect(hides({ outlined: true, without })).toBe(true);
    expect(hides({ outlined: true, without: ['left_ankle'] })).toBe(false);
    expect(hides({ outlined: true, toes: true, without })).toBe(false);
    expect(hides({ without })).toBe(false);
  });
});

describe('the outline', () => {
  test('knows where the photo’s own edge ends the person', () => {
    const outline = [
      { x: 0.003, y: 0.5 },
      { x: 0.5, y: 0.9961 },
      { x: 0.5, y: 0.99 },
      { x: 0.01, y: 0.2 },
    ];
    const cut = figureOf({ ...standing(), outline }, PHOTO, 0).outline?.map((corner) => corner.cutByPhoto);
    expect(cut).toEqual([true, true, false, false]);
  });

  test('gives the extent; without one the box does', () => {
    expect(figure.extent).toEqual({
      left: expect.closeTo(1340, 6) as number,
      top: expect.closeTo(1500, 6) as number,
      right: expect.closeTo(2660, 6) as number,
      bottom: expect.closeTo(5564, 6) as number,
    });
    expect(figureOf(standing(), PHOTO, 0).extent.right).toBeCloseTo(2680, 6);
  });
});

describe('in the crop', () => {
  test('any part of the body', () => {
    expect(isInCrop(figure, { ...whole, left: 2659 })).toBe(true);
    expect(isInCrop(figure, { ...whole, left: 2661 })).toBe(false);
    expect(isInCrop(figure, { ...whole, bottom: 1499 })).toBe(false);
  });

  test('the face, when its middle is', () => {
    // From 1782.8 to 2068: the middle is at 1925.4.
    expect(isFaceInCrop(figure, { ...whole, top: 1925 })).toBe(true);
    expect(isFaceInCrop(figure, { ...whole, top: 1926 })).toBe(false);
    expect(isFaceInCrop(figureOf(standing({ without: ['nose', 'left_eye'] }), PHOTO, 0), whole)).toBe(false);
  });
});
