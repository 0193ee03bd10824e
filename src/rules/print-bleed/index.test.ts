import { expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { checkScene } from '../report.ts';
import type { Print } from '../scene.ts';
import { only, scene } from '../testing/scenes.ts';

const BLEED: Print = { bleed: { x: 0.02, y: 0.01 }, safe: { x: 0, y: 0 } };
const SAFE: Print = { bleed: { x: 0, y: 0 }, safe: { x: 0.03, y: 0.03 } };
const PEOPLE = [standing({ outlined: true, fingers: true, toes: true })];

function edges(print: Print | undefined, crop: object, degrees = 0): (string | undefined)[] {
  const frame = scene({ people: PEOPLE, degrees, ...crop, ...(print && { print }) });
  return checkScene(frame, only('print-bleed')).map(({ edge }) => edge);
}

test('is silent where no output is spoken of', () => {
  expect(edges(undefined, { left: 0, top: 0, right: 4000, bottom: 6000 })).toEqual([]);
});

test('the bleed ends with the photo: told once', () => {
  expect(edges(BLEED, { left: 0, top: 0, right: 4000, bottom: 6000 })).toEqual([undefined]);
  expect(edges(BLEED, { left: 75, top: 200, right: 3900, bottom: 5900 })).toEqual([undefined]);
  expect(edges(BLEED, { left: 80, top: 200, right: 3900, bottom: 5900 })).toEqual([]);
});

test('a turned photo ends at its corners: told once', () => {
  expect(edges(BLEED, { left: 250, top: 400, right: 3750, bottom: 5600 }, 5)).toEqual([undefined]);
  expect(edges(BLEED, { left: 900, top: 1000, right: 3100, bottom: 5000 }, 5)).toEqual([]);
});

test('a body between the trimmed edge and the safe margin', () => {
  const outline = PEOPLE[0]!.outline!.map(({ x }) => x * 4000);
  const rightmost = Math.max(...outline);
  const crop = { left: 600, top: 1200, bottom: 5800 };
  const width = rightmost - crop.left;
  expect(edges(SAFE, { ...crop, right: rightmost + 0.01 * width })).toEqual(['right']);
  expect(edges(SAFE, { ...crop, right: rightmost + 0.04 * width })).toEqual([]);
});
