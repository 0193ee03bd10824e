import { describe, expect, test } from 'vitest';
import { standing } from '../people/testing/standing.ts';
import { configure } from '../rules/configuration.ts';
import { checkScene } from '../rules/report.ts';
import { scene, type Frame } from '../rules/testing/scenes.ts';
import { fixesFor } from './fixes.ts';
import { placedCrops } from './placing.ts';

const people = [standing()];
/** The eyes at 2000, 1820. */
const frame = (more: Frame) =>
  scene({ people, composition: 'thirds', left: 1160, right: 3160, top: 1200, bottom: 4200, ...more });

describe('the present crop moved', () => {
  test('onto the nearest intersection first, then onto a line', () => {
    const placed = placedCrops(frame({}));
    // A third of 2000 and of 3000: 666.7 from the left, 1000 from the top.
    expect(placed.map(({ edges }) => [edges.left, edges.top].map(Math.round))).toEqual([
      [1334, 820],
      [1000, 1200],
      [1334, 1200],
      [667, 1200],
    ]);
    expect(placed[0]!.title).toBe(
      'Bring the subject onto the nearest intersection of the thirds: the crop moves 173 px right and 380 px up',
    );
    expect(placed[1]!.title).toBe('Bring the subject onto a line: the crop moves 160 px left');
  });

  test('into the centre', () => {
    const placed = placedCrops(frame({ composition: 'centred', left: 1000 + 340, right: 3000 + 340 }));
    expect(placed.map(({ edges }) => Math.round(edges.left))).toEqual([1000]);
  });

  test('a scene’s own line of symmetry into the centre, then the subject', () => {
    const symmetric = { composition: 'centred', symmetry: { x: 0.51, confidence: 0.9 } } as const;
    const placed = placedCrops(frame({ ...symmetric, left: 1100, right: 3100 }));
    expect(placed.map(({ edges, title }) => [Math.round(edges.left), title])).toEqual([
      [1040, 'Bring the scene’s line of symmetry into the centre: the crop moves 60 px left'],
      [1000, 'Bring the subject into the centre: the crop moves 100 px left'],
    ]);
  });

  test('a couple by its middle', () => {
    const pair = [standing({ x: 1700 }), standing({ id: 2, x: 2300 })];
    expect(placedCrops(frame({ people: pair })).map(({ edges }) => Math.round(edges.left))).toEqual([
      1334, 1000, 1334, 667,
    ]);
  });

  test('not out of the photo', () => {
    const sideways = placedCrops(frame({ left: 0, right: 3000, top: 0, bottom: 6000 }));
    expect(sideways.map(({ edges }) => [edges.left, edges.top].map(Math.round))).toEqual([
      [0, 0],
      [500, 0],
      [1000, 0],
    ]);
    const aside = [standing({ x: 1500 })];
    expect(placedCrops(frame({ people: aside, left: 0, right: 4000, top: 0, bottom: 6000 }))).toEqual([]);
  });

  test('not where nobody, three, or a free composition ask for no place', () => {
    const three = [1, 2, 3].map((id) => standing({ id, x: 1000 * id }));
    expect(placedCrops(frame({ people: [] }))).toEqual([]);
    expect(placedCrops(frame({ people: three, left: 0, right: 4000 }))).toEqual([]);
    expect(placedCrops(frame({ composition: 'free' }))).toEqual([]);
  });
});

test('the fix of placement is such a crop, where nothing else is said of it', () => {
  const all = configure();
  const before = frame({ top: 1250, bottom: 5900, left: 700, right: 3900 });
  const finding = checkScene(before, all).find(({ rule }) => rule === 'placement')!;
  const [fix] = fixesFor(before, all, [finding]).get(finding)!;
  expect(fix?.title).toMatch(/^Bring the subject onto a line/);
});

test('the fix of a scene’s line of symmetry that is off the centre brings it there', () => {
  const symmetric = { composition: 'centred', symmetry: { x: 0.51, confidence: 0.9 } } as const;
  const before = frame({ ...symmetric, left: 1100, right: 3100 });
  const all = configure();
  const finding = checkScene(before, all).find(({ rule }) => rule === 'placement')!;
  const [fix] = fixesFor(before, all, [finding]).get(finding)!;
  expect(fix?.title).toMatch(/^Bring the scene’s line of symmetry into the centre/);
  expect(checkScene(frame({ ...symmetric, left: 1040, right: 3040 }), all).map(({ rule }) => rule)).not.toContain(
    'placement',
  );
});
