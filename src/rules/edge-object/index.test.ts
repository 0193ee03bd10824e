import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { mirrored } from '../testing/random.ts';
import { findingsOf, only, said, scene } from '../testing/scenes.ts';
import { nearestCrop } from '../../search/index.ts';
import { checkScene } from '../report.ts';
import { withCrop } from '../scene.ts';

/** A bystander: body from 3145 to 3655, face from about 3365 to 3435, eyes at 3320 px from the top. */
const bystander = standing({ id: 2, height: 1500, x: 3400, headTop: 3200 });
const people = [standing({ x: 1500 }), bystander];

describe('a bystander at the right edge', () => {
  test.each([
    [3140, []], [3150, ['2 right']], [3300, ['2 right']], [3400, ['2 right']], [3445, []], [4000, []],
  ] as const)('with the edge at %d', (right, expected) => {
    expect(said('edge-object', { people, right })).toEqual(expected);
  }); // prettier-ignore

  test('a limb first, then half a face', () => {
    expect(findingsOf('edge-object', { people, right: 3300, bottom: 4000 })[0]).toMatchObject({
      severity: 'info',
      value: 4.7,
      message: expect.stringMatching(
        /^Person 2, whose face is not in the picture, reaches in from the right edge by 4.7 % of the short side/,
      ) as string,
    });
    expect(findingsOf('edge-object', { people, right: 3400 })[0]!.message).toContain(
      'leaves part of the face of person 2',
    );
  });

  test('the same in a mirror', () => {
    const { crop, ...frame } = mirrored(scene({ people, right: 3300 }));
    expect(said('edge-object', { ...frame, ...crop })).toEqual(['2 left']);
  });
});

describe('half a face of somebody beside the subject', () => {
  const beside = (height: number) => standing({ id: 2, height, x: 3400, headTop: 3200 });
  const severities = (height: number, right: number, subjects = [1]) =>
    findingsOf('edge-object', { people: [people[0]!, beside(height)], right, subjects }).map(
      ({ severity }) => severity,
    );

  test('is a warning from 40 % of the shortest subject’s height on, and a limb a hint', () => {
    expect(severities(1500, 3400)).toEqual(['info']);
    expect(severities(1700, 3400)).toEqual(['warning']);
    expect(severities(1700, 3250)).toEqual(['info']);
  });

  test('is a hint where the setting asks for taller people; nothing where the rule is off', () => {
    const frame = { people: [people[0]!, beside(1700)], right: 3400 };
    expect(findingsOf('edge-object', frame, { settings: { pressing: 60 } })[0]!.severity).toBe('info');
    expect(findingsOf('edge-object', frame, { severity: 'off' })).toEqual([]);
    expect(findingsOf('edge-object', frame, { severity: 'error' })[0]!.severity).toBe('error');
  });

  test('counts to the hair beside the ears', () => {
    const ears = { left_ear: { x: 3470 / 4000, y: 3340 / 6000, confidence: 0.9 } };
    const tall = beside(1700);
    const eared = { ...tall, points: { ...tall.points, ...ears } };
    const at = (right: number) => said('edge-object', { people: [people[0]!, eared], right, subjects: [1] });
    expect([3490, 3510].map(at)).toEqual([['2 right'], []]);
  });

  test('is kept out by the search', () => {
    const given = scene({ people: [people[0]!, beside(1700)], subjects: [1], right: 3400 });
    const { edges } = nearestCrop(given, only('edge-object'))!;
    expect(
      checkScene(withCrop(given, edges), only('edge-object')).filter(({ severity }) => severity !== 'info'),
    ).toEqual([]);
  });
});

test('legs that come in from above', () => {
  expect(said('edge-object', { people, top: 3900 })).toEqual(['2 top']);
});

test('who is far behind does not count', () => {
  const far = standing({ id: 2, height: 500, x: 3400, headTop: 3200 });
  expect(said('edge-object', { people: [people[0]!, far], right: 3390 })).toEqual([]);
  expect(said('edge-object', { people: [people[0]!, far], right: 3390 }, { settings: { least: 5 } })).toEqual([
    '2 right',
  ]);
});

describe('a second subject', () => {
  const pair = [standing({ x: 1300 }), standing({ id: 2, x: 2900 })];

  test('counts when the face is out and the other’s is in', () => {
    expect(said('edge-object', { people: pair, right: 2600 })).toEqual(['2 right']);
  });

  test('not when both faces are in: a cut face is another rule’s', () => {
    expect(said('edge-object', { people: pair, right: 3000 })).toEqual([]);
  });
});

test('one alone has nobody beside', () => {
  expect(said('edge-object', { people: [standing()], right: 1700 })).toEqual([]);
});
