import { describe, expect, test } from 'vitest';
import type { Frame } from '../testing/scenes.ts';
import { findingsOf } from '../testing/scenes.ts';
import { standing } from '../../people/testing/standing.ts';

const people = [standing()];

/** Where the subject stands in percent when placement speaks, else undefined. The eyes are at 2000. */
function told(frame: Frame, settings: Record<string, number> = {}): number | undefined {
  return findingsOf('placement', { people, composition: 'thirds', ...frame }, { settings })[0]?.value;
}

/** A crop this wide whose left edge puts the subject at `percent` of its width. */
const at = (percent: number, width = 2000) => ({
  left: 2000 - (percent / 100) * width,
  right: 2000 + (1 - percent / 100) * width,
});

// Within 5 % of the width from a third or, in upright crops, the centre (common practice, no source).
describe('upright', () => {
  test.each([
    [28.2, true], [28.4, false], [38.2, false], [38.4, true],
    [44.9, true], [45.1, false], [50, false], [54.9, false], [55.1, true],
    [61.6, true], [61.7, false], [71.6, false], [71.8, true], [10, true],
  ] as const)('at %d %%', (percent, speaks) => {
    expect(told(at(percent)) !== undefined).toBe(speaks);
  }); // prettier-ignore
});

describe('lying', () => {
  const lying = { top: 1500, bottom: 2500 };
  test.each([
    [33, false],
    [38.4, true],
    [50, true],
    [61.6, true],
    [66, false],
  ] as const)('at %d %%', (percent, speaks) => {
    expect(told({ ...at(percent), ...lying }) !== undefined).toBe(speaks);
  });
});

describe('centred', () => {
  test.each([
    [33, true],
    [44.9, true],
    [45.1, false],
    [54.9, false],
    [55.1, true],
  ] as const)('at %d %%', (percent, speaks) => {
    expect(told({ ...at(percent), composition: 'centred' }) !== undefined).toBe(speaks);
  });
});

test('composed freely it says nothing', () => {
  expect(told({ ...at(42), composition: 'free' })).toBeUndefined();
});

describe('the words', () => {
  test('between the lines', () => {
    expect(findingsOf('placement', { people, composition: 'thirds', ...at(42) })).toEqual([
      {
        rule: 'placement',
        severity: 'info',
        message:
          'The subject stands at 42 % of the width, off the lines. Move the crop by 160 px, to the nearest third or the centre.',
        value: 42,
      },
    ]);
    expect(
      findingsOf('placement', { people, composition: 'thirds', ...at(50), top: 1500, bottom: 2500 })[0]?.message,
    ).toBe('The subject stands at 50 % of the width, off the lines. Move the crop by 333 px, to the nearest third.');
  });

  test('off the centre', () => {
    expect(findingsOf('placement', { people, composition: 'centred', ...at(33) })[0]?.message).toBe(
      'The subject stands at 33 % of the width in a frame that is centred, with 0 px beside the body on the left and ' +
        '660 px on the right. Move the crop by 340 px until it is 50 %.',
    );
  });
});

describe('a scene that is symmetric itself', () => {
  // The eyes are at 2000 of 4000; the line of symmetry is 40 px beside them, 2 % of the crop's width.
  const symmetric = { composition: 'centred', symmetry: { x: 0.51, confidence: 0.9 } } as const;

  test('is centred by its own line where the subject stands by it', () => {
    expect(findingsOf('placement', { people, ...symmetric, ...at(45) })).toEqual([
      {
        rule: 'placement',
        severity: 'info',
        message:
          'The scene is symmetric about a line at 47 % of the width, and the subject stands by it, in a frame that is ' +
          'centred. Move the crop by 60 px until the line is at 50 %.',
        value: 47,
      },
    ]);
    expect(told({ ...symmetric, ...at(46.1) })).toBeUndefined();
    expect(told({ ...symmetric, ...at(49.9) })).toBeUndefined();
    expect(told({ ...symmetric, ...at(50.1) })).toBe(52.1);
  });

  test('gives way to a subject that stands beside it, and is named', () => {
    const aside = { ...symmetric, symmetry: { x: 0.55, confidence: 0.9 } };
    expect(told({ ...aside, ...at(50) })).toBeUndefined();
    expect(findingsOf('placement', { people, ...aside, ...at(33) })[0]?.message).toContain(
      'until it is 50 %. The scene itself is symmetric about a line at 43 %.',
    );
  });

  test('says nothing while it is not sure, leans in the frame, or the frame is not centred', () => {
    expect(told({ ...symmetric, symmetry: { x: 0.51, confidence: 0.4 }, ...at(46) })).toBeUndefined();
    expect(told({ ...symmetric, ...at(45), degrees: 3.5 })).toBeUndefined();
    expect(told({ ...symmetric, ...at(45.5), composition: 'thirds' })).toBeUndefined();
  });

  test('within as much as is set', () => {
    expect(told({ ...symmetric, ...at(46) }, { axis: 1 })).toBe(48);
    expect(told({ ...symmetric, ...at(46) }, { axis: 2.5 })).toBeUndefined();
  });
});

describe('how many', () => {
  const pair = [standing({ x: 1700 }), standing({ id: 2, x: 2300 })];

  test('a couple is placed by its middle', () => {
    expect(told({ people: pair, ...at(50) })).toBeUndefined();
    expect(told({ people: pair, ...at(42) })).toBe(42);
    expect(findingsOf('placement', { people: pair, composition: 'thirds', ...at(42) })[0]?.message).toContain(
      'The middle of the two stands at 42 %',
    );
  });

  test('three and more are placed by the eye alone', () => {
    expect(told({ people: [...pair, standing({ id: 3 })], ...at(42) })).toBeUndefined();
  });

  test('a bystander does not count', () => {
    const beside = [...people, standing({ id: 2, height: 1500, x: 2700, headTop: 3000 })];
    expect(told({ people: beside, ...at(50) })).toBeUndefined();
  });

  test('a face that is out does not count', () => {
    expect(told({ people: pair, left: 1200, right: 2200 })).toBeUndefined();
  });

  test('nobody', () => {
    expect(told({ people: [] })).toBeUndefined();
  });
});

test('in a turned picture the subject is where turning puts it', () => {
  // The eyes, 1180 px over the centre, move right by 1180 · sin 10° = 204.9 px: 10.2 % of 2000.
  expect(told({ ...at(50), degrees: 10 })).toBe(60.2);
});

test('a wider reach', () => {
  expect(told(at(42), { within: 8.5 })).toBeUndefined();
});
