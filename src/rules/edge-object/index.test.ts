import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { mirrored } from '../testing/random.ts';
import { findingsOf, said, scene } from '../testing/scenes.ts';

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
    expect(findingsOf('edge-object', { people, right: 3400 })[0]!.message).toContain('leaves half a face of person 2');
  });

  test('the same in a mirror', () => {
    const { crop, ...frame } = mirrored(scene({ people, right: 3300 }));
    expect(said('edge-object', { ...frame, ...crop })).toEqual(['2 left']);
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
