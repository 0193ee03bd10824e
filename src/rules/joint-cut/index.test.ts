import { describe, expect, test } from 'vitest';
import { turnPoint } from '../../geometry/turning.ts';
import { adviceFor } from './advice.ts';
import { findingsOf, said } from '../testing/scenes.ts';
import { PHOTO, standing } from '../../people/testing/standing.ts';

const RULE = 'joint-cut';
const people = [standing()];
const both = (joint: string, edge = 'bottom') => [`1 left_${joint} ${edge}`, `1 right_${joint} ${edge}`];
const legsOnly = [standing({ without: ['left_elbow', 'right_elbow', 'left_wrist', 'right_wrist'] })];

// Bounds of DESIGN.md, "Where a cut is fine" (common practice, no source), worked out on the standing figure:
// shoulders 2292, elbows 3036, hips 3444, wrists 3620, knees 4424, ankles 5408; thigh 980, lower leg 984, torso 1152.
describe('a lower edge through the middle of the body', () => {
  test.each([
    ['in the torso from 12 %', 2431, []],
    ['in the torso up to 82 %', 3236, []],
    ['in the torso from 82 %: the hip', 3238, both('hip')],
    ['through the hip', 3444, both('hip')],
    ['in the thigh up to 25 %: the hip', 3688, both('hip')],
    ['in the thigh from 25 %', 3690, []],
    ['in the thigh up to 80 %', 4227, []],
    ['in the thigh from 80 %: the knee', 4229, both('knee')],
    ['through the knee', 4424, both('knee')],
    ['in the lower leg up to 40 %: the knee', 4817, both('knee')],
    ['in the lower leg from 40 %', 4818, []],
    ['in the lower leg up to 65 %', 5063, []],
    ['in the lower leg from 65 %: the ankle', 5064, both('ankle')],
    ['6 % of the lower leg under the ankle', 5466, both('ankle')],
    ['past 6 % of the lower leg under the ankle', 5468, []],
  ])('%s', (_, bottom, expected) => {
    expect(said(RULE, { people: legsOnly, bottom })).toEqual(expected);
  });
});

describe('a lower edge through arms that hang', () => {
  test.each([
    ['in the upper arm up to 25 %: the shoulder', 2477, both('shoulder')],
    ['in the upper arm from 25 %', 2479, []],
    ['in the upper arm up to 75 %', 2849, []],
    ['in the upper arm from 75 %: the elbow', 2851, both('elbow')],
    ['in the forearm up to 20 %: the elbow', 3152, both('elbow')],
    ['in the forearm from 20 %', 3153, []],
    ['6 % of the forearm under the wrist (35 px)', 3654, [...both('wrist'), ...both('hip')]],
    ['past 6 % of the forearm under the wrist', 3656, both('hip')],
  ])('%s', (_, bottom, expected) => {
    expect(said(RULE, { people, bottom })).toEqual(expected);
  });
});

describe('the neck, from the chin (2068) to the shoulders', () => {
  test.each([
    ['over the chin', 2067, []],
    ['under the chin', 2069, ['1 neck bottom']],
    ['just over the shoulders', 2291, ['1 neck bottom']],
    ['on the shoulder line itself', 2292, ['1 neck bottom']],
  ])('%s', (_, bottom, expected) => {
    expect(said(RULE, { people, bottom })).toEqual(expected);
  });

  test('an upper edge through it', () => {
    expect(said(RULE, { people, top: 2200 })).toEqual(['1 neck top']);
  });

  test('an edge from the side never speaks of the neck or the torso', () => {
    expect(said(RULE, { people, left: 2100, bottom: 2600 })).toEqual([]);
  });
});

describe('an edge from the side', () => {
  const reaching = [standing({ arms: 'out' })];
  // Left shoulder 2400, elbow 3144, wrist 3728 on the shoulder line.
  test.each([
    ['in the upper arm near the shoulder is a tight portrait', 2500, []],
    ['in the upper arm up to 75 %', 2957, []],
    ['in the upper arm from 75 %', 2959, ['1 left_elbow right']],
    ['in the forearm up to 20 %', 3260, ['1 left_elbow right']],
    ['in the forearm from 20 %', 3262, []],
    ['in the forearm up to 70 %', 3552, []],
    ['in the forearm from 70 %', 3553, ['1 left_wrist right']],
    ['6 % of the forearm past the wrist', 3763, ['1 left_wrist right']],
    ['past 6 % of the forearm past the wrist', 3764, []],
  ])('%s', (_, right, expected) => {
    expect(said(RULE, { people: reaching, right, bottom: 2700 })).toEqual(expected);
  });

  test('an arm over the upper edge is not in the edge’s span', () => {
    expect(said(RULE, { people: reaching, right: 3144, top: 2293, bottom: 2700 })).not.toContain('1 left_elbow right');
  });
});

describe('a limb that leaves the picture and comes back', () => {
  // Left shoulder 2400, elbow 2840, wrist 2480: from 2588 to 2730 the cuts of both parts are fine, one by one.
  const akimbo = [standing({ arms: 'akimbo' })];
  test.each([
    ['between them and the elbow', 2650, ['1 left_elbow right']],
    ['past the elbow and its band', 2890, []],
    ['inside the wrist, where the shoulder is cut off too', 2390, []],
  ])('a right edge %s', (_, right, expected) => {
    expect(said(RULE, { people: akimbo, right })).toEqual(expected);
  });

  test('the other elbow, at the left edge; both at once', () => {
    expect(said(RULE, { people: akimbo, left: 1350 })).toEqual(['1 right_elbow left']);
    expect(said(RULE, { people: akimbo, left: 1350, right: 2650 }).sort()).toEqual([
      '1 left_elbow right',
      '1 right_elbow left',
    ]);
  });

  test('not where one of the two cuts is beyond the crop: the arm does not come back', () => {
    // The edge crosses the upper arm at 2619 and the forearm at 3172.
    expect(said(RULE, { people: akimbo, right: 2650, top: 2700, bottom: 6000 })).toEqual([]);
    expect(said(RULE, { people: akimbo, right: 2650, bottom: 3100 })).toEqual([]);
  });

  test('a knee that stands out, and an elbow over the head', () => {
    const person = standing();
    const armless = standing({ without: ['left_elbow', 'left_wrist'] });
    const seated = { ...armless, points: { ...armless.points, left_knee: { x: 0.72, y: 0.74, confidence: 0.95 } } };
    expect(said(RULE, { people: [seated], right: 2560 })).toEqual(['1 left_knee right']);
    const raised = {
      ...person,
      points: {
        ...person.points,
        left_elbow: { x: 0.66, y: 0.23, confidence: 0.95 },
        left_wrist: { x: 0.54, y: 0.33, confidence: 0.95 },
      },
    };
    expect(said(RULE, { people: [raised], top: 1690 })).toEqual(['1 left_elbow top']);
  });

  test('its words', () => {
    expect(findingsOf(RULE, { people: akimbo, right: 2650 })[0]?.message).toBe(
      'The right edge cuts off the left elbow of person 1: the arm leaves the picture and comes back. Open until the whole ' +
        'arm is in, or come in until no more than its upper half is.',
    );
    const unsure = [standing({ arms: 'akimbo', sureness: { left_elbow: 0.5 } })];
    expect(findingsOf(RULE, { people: unsure, right: 2650 })[0]?.message).toContain('possibly cuts off the left elbow');
  });
});

describe('the words', () => {
  test('distance, side, person and advice', () => {
    const [finding] = findingsOf(RULE, { people, bottom: 4404 });
    expect(finding).toEqual({
      rule: RULE,
      severity: 'warning',
      message:
        'The lower edge cuts the left knee of person 1 (2 % of the limb above it). Come up to mid-thigh, or open to below the feet.',
      person: 1,
      joint: 'left_knee',
      edge: 'bottom',
      value: -2,
      limit: 6,
    });
  });

  test('on the joint itself', () => {
    expect(findingsOf(RULE, { people, bottom: 4424 })[0]?.message).toContain('(right through it)');
  });

  test('every joint has advice of its own from below and from a side', () => {
    for (const joint of ['neck', 'left_shoulder', 'left_elbow', 'left_wrist', 'left_hip', 'left_knee', 'left_ankle']) {
      for (const edge of ['bottom', 'left'] as const) expect(adviceFor(joint, edge)).not.toContain('looks meant');
    }
  });
});

describe('what was measured', () => {
  test('a joint that is not sure is possibly cut', () => {
    const unsure = [standing({ sureness: { left_knee: 0.5 } })];
    expect(said(RULE, { people: unsure, bottom: 4424 })).toEqual([
      '1 left_knee bottom possibly',
      '1 right_knee bottom',
    ]);
    expect(findingsOf(RULE, { people: unsure, bottom: 4424 })[0]?.message).toContain('possibly cuts the left knee');
  });

  test('0.7 is firm, 0.4 is possible, less is silent', () => {
    const cut = (sureness: number) =>
      said(RULE, { people: [standing({ sureness: { left_knee: sureness } })], bottom: 4424 })[0];
    expect(cut(0.7)).toBe('1 left_knee bottom');
    expect(cut(0.69)).toBe('1 left_knee bottom possibly');
    expect(cut(0.4)).toBe('1 left_knee bottom possibly');
    expect(cut(0.39)).toBe('1 right_knee bottom');
  });

  test('a joint that was not found says nothing, and neither do the parts that it ends', () => {
    const oneKnee = [standing({ without: ['left_knee'] })];
    expect(said(RULE, { people: oneKnee, bottom: 4424 })).toEqual(['1 right_knee bottom']);
    expect(said(RULE, { people: oneKnee, bottom: 4700 })).toEqual(['1 right_knee bottom']);
  });

  test('a joint alone has no limb to measure its band by', () => {
    const lone = [standing({ without: ['left_hip', 'left_ankle'] })];
    expect(said(RULE, { people: lone, bottom: 4424 })).toEqual(['1 right_knee bottom']);
  });
});

describe('who counts', () => {
  // Half as tall is a subject, less is a bystander (common practice, no source).
  const beside = (height: number) => [standing(), standing({ id: 2, height, x: 3400, headTop: 3000 })];

  test('a bystander’s knee says nothing', () => {
    expect(said(RULE, { people: beside(1990), bottom: 4460 })).toEqual(both('knee'));
  });

  test('somebody half as tall counts', () => {
    expect(said(RULE, { people: beside(2001), bottom: 4462 })).toEqual([
      ...both('knee'),
      '2 left_knee bottom',
      '2 right_knee bottom',
    ]);
  });

  test('the frame can name the subjects', () => {
    expect(said(RULE, { people: beside(1990), subjects: [2], bottom: 4460 })).toEqual([
      '2 left_knee bottom',
      '2 right_knee bottom',
    ]);
  });

  test('of two people who overlap both are respected', () => {
    const pair = [standing({ x: 1800 }), standing({ id: 2, x: 2200, headTop: 1700 })];
    // Thigh of the first (4228 and up is the knee), thigh of the second.
    expect(said(RULE, { people: pair, bottom: 4227 })).toEqual([]);
    expect(said(RULE, { people: pair, bottom: 3870 })).toEqual(['2 left_hip bottom', '2 right_hip bottom']);
    expect(said(RULE, { people: pair, bottom: 4300 })).toEqual(both('knee'));
  });

  test('a person wholly outside the crop says nothing', () => {
    const apart = [standing({ x: 1000 }), standing({ id: 2, x: 3000 })];
    expect(said(RULE, { people: apart, bottom: 4424, right: 2000 })).toEqual(both('knee'));
  });
});

describe('turned pictures', () => {
  test('the joint is where turning puts it', () => {
    // At +10° the left knee (viewer’s right) comes down, the right one goes up.
    const knee = turnPoint({ x: 2180, y: 4424 }, PHOTO, 10);
    const frame = { people, degrees: 10, left: 1000, top: 1000, right: 3000 };
    expect(said(RULE, { ...frame, bottom: knee.y })).toContain('1 left_knee bottom');
    const findings = findingsOf(RULE, { ...frame, bottom: knee.y + 20 });
    expect(findings.find(({ joint }) => joint === 'left_knee')?.value).toBeCloseTo((20 / 984.2) * 100, 0);
  });
});

test('the photo’s own edge cuts like any other', () => {
  const low = [standing({ headTop: 3076 })];
  expect(said(RULE, { people: low })).toEqual(both('knee'));
});

describe('settings', () => {
  test('a narrower range for the thigh', () => {
    expect(said(RULE, { people: legsOnly, bottom: 4200 }, { settings: { thighTo: 70 } })).toEqual(both('knee'));
  });

  test('a wider band', () => {
    const settings = { band: 10 };
    expect(said(RULE, { people: legsOnly, bottom: 5500 })).toEqual([]);
    expect(said(RULE, { people: legsOnly, bottom: 5500 }, { settings })).toEqual(both('ankle'));
  });

  test('severity', () => {
    expect(findingsOf(RULE, { people, bottom: 4424 }, { severity: 'info' })[0]?.severity).toBe('info');
    expect(said(RULE, { people, bottom: 4424 }, { severity: 'off' })).toEqual([]);
  });
});
