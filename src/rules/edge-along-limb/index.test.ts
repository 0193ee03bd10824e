import { describe, expect, test } from 'vitest';
import { findingsOf, said } from '../testing/scenes.ts';
import { standing } from '../../people/testing/standing.ts';

const RULE = 'edge-along-limb';
const people = [standing()];
const ARM = 89.4; // 2.2 % of the height of 4064 (common practice, no source)
const LEG = 142.2; // 3.5 % of it

// The standing figure's left arm hangs from 2400 (shoulder) over 2520 (elbow) to 2560 (wrist); its left leg from 2200
// (hip) over 2180 (knee and ankle).
describe('an upright edge', () => {
  test.each([
    ['beside the forearm', 2540 + ARM + 1, []],
    ['in the forearm', 2540 + ARM - 1, ['1 left_wrist right']],
    ['in forearm and upper arm', 2500, ['1 left_elbow right', '1 left_wrist right']],
    ['in the upper arm', 2460 - ARM + 1, ['1 left_elbow right']],
    ['between arm and leg', 2460 - ARM - 1, []],
    ['beside the leg', 2190 + LEG + 1, []],
    ['in the thigh', 2190 + LEG - 1, ['1 left_knee right']],
    ['in the leg', 2180, ['1 left_knee right', '1 left_ankle right']],
  ])('%s', (_, right, expected) => {
    expect(said(RULE, { people, right })).toEqual(expected);
  });

  test('that ends above the middle of the limb does not run along half of it', () => {
    // Halfway down the left thigh: 3934.
    expect(said(RULE, { people, right: 2190, bottom: 3933 })).toEqual([]);
    expect(said(RULE, { people, right: 2190, bottom: 3935 })).toEqual(['1 left_knee right']);
  });

  test('that begins under the middle of the limb does not either', () => {
    expect(said(RULE, { people, right: 2460, top: 2665, bottom: 3000 })).toEqual([]);
  });
});

describe('a lying edge', () => {
  const reaching = [standing({ arms: 'out' })];

  test.each([
    ['over the arms', 2292 - ARM - 1, []],
    ['in the arms', 2292 + ARM - 1, ['1 left_elbow top', '1 left_wrist top', '1 right_elbow top', '1 right_wrist top']],
    ['under the arms', 2292 + ARM + 1, []],
  ])('%s', (_, top, expected) => {
    expect(said(RULE, { people: reaching, top })).toEqual(expected);
  });

  test('across a limb that hangs says nothing', () => {
    expect(said(RULE, { people, bottom: 3934 })).toEqual([]);
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { people, left: 1810 })[0]).toEqual({
    rule: RULE,
    severity: 'warning',
    message:
      'The left edge runs lengthwise inside the right thigh of person 1. Open until the whole limb is in, or come in past it.',
    person: 1,
    joint: 'right_knee',
    edge: 'left',
    value: 0,
    limit: 3.5,
  });
});

test('a limb with an unsure end is possible, one without an end is silent', () => {
  const unsure = [standing({ sureness: { left_knee: 0.5 }, without: ['left_ankle'] })];
  expect(said(RULE, { people: unsure, right: 2180 })).toEqual(['1 left_knee right possibly']);
});

test('a limb that comes towards the camera is a stump and says nothing', () => {
  const [person] = [standing()];
  const knee = { ...person.points.left_hip!, y: person.points.left_hip!.y + 0.01 };
  const seated = [{ ...person, points: { ...person.points, left_knee: knee, left_ankle: knee } }];
  expect(said(RULE, { people: seated, right: 2200 })).toEqual([]);
});

test('a bystander’s limb says nothing', () => {
  const beside = [standing(), standing({ id: 2, height: 1500, x: 3300, headTop: 3500 })];
  expect(said(RULE, { people: beside, right: 3370 })).toEqual([]);
});

test('of two people who overlap each limb is told', () => {
  const pair = [standing({ x: 1900 }), standing({ id: 2, x: 2000 })];
  const found = said(RULE, { people: pair, right: 2130 });
  expect(found).toContain('1 left_ankle right');
  expect(found).toContain('2 left_ankle right');
});

test('in a picture turned by 20° the limb is too slanted to hold the edge', () => {
  // A leg of 984 px leans over by 984 · sin 20° = 337 px; up to 4 half widths (569 px) it still counts, an arm not always.
  const turned = { people, degrees: 40, left: 1500, top: 2000, bottom: 4000 };
  for (let right = 1600; right < 2600; right += 50) expect(said(RULE, { ...turned, right })).toEqual([]);
});

test('the photo’s own edge runs along like any other', () => {
  expect(said(RULE, { people: [standing({ x: 3820 })] })).toContain('1 left_ankle right');
});

test('wider legs', () => {
  expect(said(RULE, { people, right: 2350 })).toEqual([]);
  expect(said(RULE, { people, right: 2350 }, { settings: { leg: 4 } })).toEqual(['1 left_knee right']);
});
