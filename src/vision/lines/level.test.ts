import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Person, PhotoPeople } from '../../people/person.ts';
import { Pyramid } from '../image/pyramid.ts';
import { drawChart, posts, randomNumbers, sea, type ChartOptions, type Scene } from '../testing/chart.ts';
import { findLevel } from './level.ts';

type Level = Pick<PhotoPeople, 'tilt' | 'horizon'>;

/** Below this the people file has no answer (its format says so). */
const ANSWER = 0.5;

function levelOf(scene: Scene, options?: ChartOptions, people: readonly Person[] = []): Level {
  return findLevel(new Pyramid(drawChart(scene, options)), people);
}

function answerOf({ tilt }: Level): number | undefined {
  return tilt !== undefined && tilt.confidence >= ANSWER ? tilt.degrees : undefined;
}

function seenHorizon({ horizon }: Level): number | undefined {
  return horizon !== undefined && horizon.confidence >= ANSWER ? horizon.y : undefined;
}

function somebody(box: Person['box'], points: Person['points'] = {}): Person {
  return { id: 1, source: 'model', box, points };
}

/** A band of `light` lightness, `half` high above and below `y`, before `behind`. */
function rail(y: number, half: number, light: number, behind: Scene): Scene {
  return (x, at) => (Math.abs(at - y) < half ? light : behind(x, at));
}

const FENCE = [-0.41, -0.27, -0.12, 0.05, 0.19, 0.34];

describe('a horizon', () => {
  test('gives lean and height; what is turned clockwise is levelled the other way', () => {
    const level = levelOf(sea(-0.05), { roll: 3 });
    expect(answerOf(level)).toBeCloseTo(-3, 1);
    // The chart is 900 × 600, so heights in the longer edge are two thirds of those in the height.
    expect(seenHorizon(level)).toBeCloseTo(0.5 - 0.05 * 1.5, 2);
  });

  test('is told by its middle, also when half of it is hidden', () => {
    const level = levelOf(sea(0.04), { roll: -2 }, [somebody([0, 0.1, 0.5, 0.9])]);
    expect(answerOf(level)).toBeCloseTo(2, 1);
    expect(seenHorizon(level)).toBeCloseTo(0.56, 2);
  });

  test('is found in grain', () => {
    const level = levelOf(sea(0), { roll: 1.3, grain: 5 });
    expect(Math.abs(answerOf(level)! + 1.3)).toBeLessThan(0.2);
  });

  test('is as high as the camera: the edge of a floor, lower than the hips, is none', () => {
    const hips = { left_hip: { x: 0.55, y: 0.5, confidence: 0.9 }, right_hip: { x: 0.45, y: 0.5, confidence: 0.9 } };
    const person = somebody([0.4, 0.1, 0.2, 0.85], hips);
    expect(levelOf(sea(0.1), { roll: 1 }, [person])).toEqual({});
    expect(answerOf(levelOf(sea(-0.1), { roll: 1 }, [person]))).toBeCloseTo(-1, 1);
  });

  test('is darker below: a rail, with the same above and below, is none, and hides none', () => {
    expect(
      levelOf(
        rail(-0.1, 0.006, 90, () => 200),
        { roll: 2 },
      ),
    ).toEqual({});
    const level = levelOf(rail(0.05, 0.006, 90, sea(-0.1)), { roll: 2 });
    expect(seenHorizon(level)).toBeCloseTo(0.35, 2);
  });

  test('is straight: hills are none', () => {
    const hills: Scene = (x, y) => (y < 0.03 * Math.sin(9 * x) ? 205 : 120);
    expect(seenHorizon(levelOf(hills))).toBeUndefined();
  });
});

describe('uprights', () => {
  test('give the lean, and no horizon', () => {
    const level = levelOf(posts(FENCE), { roll: 4 });
    expect(answerOf(level)).toBeCloseTo(-4, 1);
    expect(level.horizon).toBeUndefined();
  });

  test('may meet above or below, as a camera that points up or down makes them', () => {
    for (const convergence of [-0.2, 0.1, 0.25]) {
      const answer = answerOf(levelOf(posts(FENCE, { convergence }), { roll: -2 }));
      expect(Math.abs(answer! - 2)).toBeLessThan(0.25);
    }
  });

  test('that meet, on one side of the picture only, do not make it lean', () => {
    const level = levelOf(posts([0.2, 0.26, 0.33, 0.41], { convergence: 0.25 }));
    expect(Math.abs(answerOf(level) ?? 0)).toBeLessThan(1);
  });

  test('are outvoted by none that slants by itself', () => {
    const leans = [0, 7, 0, 0, -11, 0];
    expect(Math.abs(answerOf(levelOf(posts(FENCE, { leans }), { roll: 1 }))! + 1)).toBeLessThan(0.3);
  });

  test('inside people are stripes of their clothes', () => {
    const stripes = posts([-0.1, -0.05, 0, 0.05, 0.1]);
    expect(answerOf(levelOf(stripes, { roll: 6 }))).toBeCloseTo(-6, 1);
    expect(levelOf(stripes, { roll: 6 }, [somebody([0.25, 0, 0.5, 1])])).toEqual({});
  });
});

describe('no answer is better than a wrong one', () => {
  test('an empty picture, grain, soft light', () => {
    expect(levelOf(() => 128, { grain: 0 })).toEqual({});
    expect(levelOf(() => 128, { grain: 12 })).toEqual({});
    expect(levelOf((x, y) => 120 + 80 * x + 60 * y)).toEqual({});
  });

  test('pictures that are too small, or hardly more than a line', () => {
    for (const size of [
      { width: 1, height: 1 },
      { width: 16, height: 16 },
      { width: 2000, height: 3 },
    ]) {
      expect(levelOf(sea(0), { size })).toEqual({});
    }
  });

  test('one post may lean by itself', () => {
    expect(answerOf(levelOf(posts([0.3]), { roll: 5 }))).toBeUndefined();
  });

  test('the rails of a fence that runs away from the camera are not level', () => {
    // All meet far to the right, at the height of the camera.
    const fence: Scene = (x, y) => {
      const height = y / (1 - 0.9 * x);
      return [0.1, 0.16, 0.22, 0.28].some((rail) => Math.abs(height - rail) < 0.006) ? 80 : 200;
    };
    expect(answerOf(levelOf(fence))).toBeUndefined();
  });

  test.each([1, 2, 3, 4])('sticks that lie about in every direction (%i)', (seed) => {
    const random = randomNumbers(seed);
    const sticks = Array.from({ length: 30 }, () => {
      const angle = Math.PI * random();
      const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
      return { x: random() - 0.5, y: 0.7 * (random() - 0.5), cosine, sine, length: 0.03 + 0.12 * random() };
    });
    const scene: Scene = (x, y) => {
      const isStick = sticks.some((stick) => {
        const along = (x - stick.x) * stick.cosine + (y - stick.y) * stick.sine;
        const across = (y - stick.y) * stick.cosine - (x - stick.x) * stick.sine;
        return Math.abs(along) < stick.length && Math.abs(across) < 0.004;
      });
      return isStick ? 60 : 190;
    };
    expect(answerOf(levelOf(scene))).toBeUndefined();
  });

  test('a horizon and posts below it that contradict each other', () => {
    const water = sea(-0.05);
    const fence = (lean: number): Scene => {
      const before = posts(FENCE, { behind: water, leans: FENCE.map(() => lean) });
      return (x, y) => (y > 0 ? before : water)(x, y);
    };
    expect(answerOf(levelOf(fence(0), { roll: 1 }))).toBeCloseTo(-1, 1);
    expect(answerOf(levelOf(fence(4), { roll: 1 }))).toBeUndefined();
  });
});

describe('turning', () => {
  const rolls = fc.integer({ min: -120, max: 120 }).map((tenths) => tenths / 10);
  const scenes = fc.constantFrom(
    sea(-0.03),
    posts(FENCE),
    posts(FENCE, { convergence: 0.1 }),
    posts(FENCE, { behind: sea(0.02) }),
  );

  test('the picture by some degrees turns the answer by as many the other way', () => {
    fc.assert(
      fc.property(scenes, rolls, (scene, roll) => {
        const answer = answerOf(levelOf(scene, { roll, size: { width: 600, height: 600 } }));
        expect(answer).toBeDefined();
        expect(Math.abs(answer! + roll)).toBeLessThan(0.3);
      }),
      { numRuns: 25 },
    );
  });

  test.each([18, 25, 40, -30])('by %d degrees, more than a photo leans, gives no small lean', (roll) => {
    for (const scene of [sea(0), posts(FENCE), posts(FENCE, { behind: sea(0.02) })]) {
      const answer = answerOf(levelOf(scene, { roll }));
      expect(answer === undefined || Math.abs(answer + roll) < 1).toBe(true);
    }
  });
});
