import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { horizonLine } from './line.ts';
import type { Frame } from '../testing/scenes.ts';
import { findingsOf } from '../testing/scenes.ts';

/** Eyes at 1820, chin about 2068, shoulders at 2292. */
const people = [standing()];
const at = (pixels: number, confidence = 0.9) => ({ y: pixels / 6000, confidence });

function told(frame: Frame, settings = {}): string[] {
  return findingsOf('horizon', { people, ...frame }, { settings }).map(({ message }) => message);
}

/** A crop in which the horizon, at 3000, runs at that percentage of the height. */
const share = (percent: number) => ({
  horizon: at(3000),
  top: 3000 - 40 * percent,
  bottom: 3000 + 40 * (100 - percent),
});

describe('along the middle', () => {
  // 46 to 54 % (common practice, no source).
  test.each([
    [45.9, false], [46.1, true], [50, true], [53.9, true], [54.1, false], [20, false], [90, false],
  ] as const)('at %d %%', (percent, speaks) => {
    expect(told(share(percent)).length > 0).toBe(speaks);
  }); // prettier-ignore

  test('value, and words', () => {
    expect(findingsOf('horizon', { people, ...share(50) })).toMatchObject([{ severity: 'info', value: 50 }]);
    expect(told(share(50))[0]).toMatch(/^The horizon runs along the middle, 50 % from the top\./);
  });

  test('not where the frame is centred on purpose', () => {
    expect(told({ ...share(50), composition: 'centred' })).toEqual([]);
  });

  test('another middle', () => {
    expect(told(share(47), { middleFrom: 48 })).toEqual([]);
  });
});

describe('through a body', () => {
  test.each([
    [1400, undefined], [1600, 'head'], [2000, 'head'], [2200, 'neck'], [2400, undefined],
  ] as const)('at %d px', (pixels, part) => {
    const [message] = told({ horizon: at(pixels), composition: 'centred' });
    if (part) expect(message).toContain(`through the ${part} of person 1`);
    else expect(message).toBeUndefined();
  }); // prettier-ignore

  test('of somebody whose face is out it says nothing', () => {
    expect(told({ horizon: at(2000), left: 2300, composition: 'centred' })).toEqual([]);
  });
});

describe('where it runs', () => {
  test('an unsure horizon is none', () => {
    expect(told({ ...share(50), horizon: at(3000, 0.49) })).toEqual([]);
    expect(told({ people })).toEqual([]);
  });

  test('a photo that leans has a leaning line; levelled, a level one', () => {
    const photo = { width: 4000, height: 6000 };
    const tilt = { degrees: -2, confidence: 0.9 };
    // Turned counter-clockwise it comes level: in the photo its right end is lower.
    const leaning = horizonLine({ photo, degrees: 0, tilt, horizon: at(2400) })!;
    expect(leaning.slope).toBeCloseTo(Math.tan((2 * Math.PI) / 180), 9);
    expect(leaning.slope * 2000 + leaning.offset).toBeCloseTo(2400, 6);
    const level = horizonLine({ photo, degrees: -2, tilt, horizon: at(2400) })!;
    expect(level.slope).toBeCloseTo(0, 9);
    // The middle of the line, 600 px over the photo's, comes 0.4 px lower by turning.
    expect(level.offset).toBeCloseTo(3000 - 600 * Math.cos((2 * Math.PI) / 180), 6);
  });
});
