import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { fixesFor } from '../../search/index.ts';
import { configure } from '../configuration.ts';
import { checkScene } from '../report.ts';
import { turnedTo } from '../scene.ts';
import type { Frame } from '../testing/scenes.ts';
import { findingsOf, only, scene } from '../testing/scenes.ts';

const people = [standing({ toes: true })];
const SEEN = { y: 0.4, confidence: 0.9 };

function leaning(degrees: number, frame: Frame = {}, confidence = 0.9): Frame {
  return { people, tilt: { degrees, confidence }, ...frame };
}

function told(degrees: number, frame: Frame = {}, confidence = 0.9): string | undefined {
  return findingsOf('tilt', leaning(degrees, frame, confidence))[0]?.message;
}

// 0.5° with a horizon, 1° with upright lines alone, up to 8° (common practice, no source).
describe('when it speaks', () => {
  test.each([
    [0.5, true, false], [0.51, true, true], [-0.51, true, true], [1, false, false], [1.01, false, true],
    [-8, false, true], [8.01, true, false], [-20, true, false], [0, true, false],
  ] as const)('leaning by %d°, horizon seen: %s', (degrees, isSeen, speaks) => {
    expect(told(degrees, { horizon: isSeen ? SEEN : undefined }) !== undefined).toBe(speaks);
  }); // prettier-ignore

  test('a horizon that is not sure counts as none', () => {
    expect(told(0.8, { horizon: { y: 0.4, confidence: 0.49 } })).toBeUndefined();
  });

  test('a lean that is not sure is no answer', () => {
    expect(told(3, {}, 0.49)).toBeUndefined();
    expect(told(3, {}, 0.5)).toBeDefined();
    expect(findingsOf('tilt', { people })).toEqual([]);
  });

  test('who has straightened has decided', () => {
    expect(told(3, { degrees: 0.5 })).toBeUndefined();
  });
});

describe('what it says', () => {
  test('value and limit', () => {
    expect(findingsOf('tilt', leaning(-1.5, { horizon: SEEN }))[0]).toMatchObject({ value: -1.5, limit: 0.5 });
    expect(findingsOf('tilt', leaning(1.5))[0]).toMatchObject({ value: 1.5, limit: 1, severity: 'info' });
  });

  test('turning clockwise levels what leans counter-clockwise', () => {
    expect(told(2)).toMatch(/^The picture leans 2° counter-clockwise; straighten by 2° to level it\./);
    expect(told(-2)).toMatch(/^The picture leans 2° clockwise; straighten by −2° to level it\./);
  });

  // 4000 × 6000 turned by 3° holds 6000 / (2/3 · sin 3° + cos 3°) = 5805.2 px of height at 2:3 by one side and
  // 4000 / (2/3 · cos 3° + sin 3°) = 5570.6 by the other; the smaller leaves 214.7 px over and under, 143.1 beside.
  test('of a whole photo, what the largest crop of its shape loses', () => {
    expect(told(3)).toContain(
      'loses 143 px at the left, 215 px at the top, 143 px at the right and 215 px at the bottom',
    );
  });

  test('a crop with room around it keeps its size', () => {
    expect(told(2, { left: 1000, top: 1200, right: 3000, bottom: 5700 })).toContain('The crop keeps its size');
  });

  test('a gap under the feet that shrinks, one that closes, and what is cut then', () => {
    const near = [standing({ toes: true, headTop: 1600 })];
    expect(told(3, { people: near })).toMatch(/the gap under the feet of person 1 shrinks from 336 to \d+ px/);
    const atEdge = [standing({ toes: true, headTop: 1850 })];
    expect(told(3, { people: atEdge })).toContain('the gap under the feet of person 1, 86 px now, closes');
    const all = checkScene(scene(leaning(3, { people: atEdge })), configure());
    expect(all.find(({ rule }) => rule === 'tilt')?.message).toContain('the lower edge would cut the left ankle');
  });

  test('a length that is lost', () => {
    const atEdge = [standing({ toes: true, headTop: 1850 })];
    expect(told(3, { people: atEdge })).toContain('; full length becomes three-quarter length.');
    expect(told(3)).not.toContain('becomes');
  });

  test('of a joint that is cut already it says nothing', () => {
    const all = checkScene(scene(leaning(1.2, { left: 400, top: 1200, right: 3600, bottom: 4424 })), configure());
    expect(all.map(({ rule }) => rule)).toContain('joint-cut');
    expect(all.find(({ rule }) => rule === 'tilt')?.message).not.toContain('would');
  });
});

describe('the fix', () => {
  const fixOf = (frame: Frame) => {
    const before = scene({ shape: 2 / 3, ...frame });
    const findings = checkScene(before, only('tilt'));
    const [fix] = fixesFor(before, configure(), findings).get(findings[0]!)!;
    const { x, y, w, h } = fix!.crop;
    const edges = { left: x * 4000, top: y * 6000, right: (x + w) * 4000, bottom: (y + h) * 6000 };
    return { fix: fix!, after: checkScene(turnedTo(before, fix!.straighten!, edges), configure()) };
  };

  test('turns and crops in one step', () => {
    const { fix, after } = fixOf(leaning(-2, { left: 400, top: 1000, right: 3600, bottom: 5800 }));
    expect(fix).toMatchObject({ straighten: -2, title: 'Level by −2°; the crop keeps its size' });
    expect(after).toEqual([]);
  });

  test('comes in tighter where the feet no longer fit', () => {
    const { fix, after } = fixOf(
      leaning(3, { people: [standing({ toes: true, headTop: 1850 })], top: 1500, left: 500, right: 3500 }),
    );
    expect(fix.title).toMatch(/^Level by 3° and come up to three-quarter length, \d+ px tighter$/);
    expect(after.filter(({ severity }) => severity !== 'info')).toEqual([]);
  });
});
