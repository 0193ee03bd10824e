import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import { figureOf } from './figure.ts';
import { protrusions } from './protrusions.ts';
import { anybody } from './testing/anybody.ts';
import { PHOTO, standing } from './testing/standing.ts';

const figure = figureOf(standing({ outlined: true }), PHOTO, 0);
const places = (edge: (typeof EDGE_NAMES)[number]) =>
  protrusions(figure, edge).map(({ x, y }) => [Math.round(x), Math.round(y)]);

describe('where the standing figure stands out', () => {
  test('to the right the left hand, to the left the right one', () => {
    expect(places('right')).toEqual([[2660, 3620]]);
    expect(places('left')).toEqual([[1340, 3620]]);
  });

  test('upwards the head, not the ends of the gaps between the legs and under the arms', () => {
    expect(places('top')).toEqual([[2000, 1500]]);
  });

  test('downwards hands and feet, each once', () => {
    expect(
      places('bottom')
        .map(([, y]) => y)
        .sort(),
    ).toEqual([4052, 4052, 5564, 5564]);
  });
});

test('a dent of less than 2 % of the height is no bump', () => {
  const square = [
    { x: 0.3, y: 0.3 },
    { x: 0.5, y: 0.3 },
    { x: 0.505, y: 0.4 },
    { x: 0.495, y: 0.5 },
    { x: 0.507, y: 0.6 },
    { x: 0.3, y: 0.6 },
  ];
  // 40 px to and fro; 2 % of the height (4064) is 81 px.
  expect(protrusions(figureOf({ ...standing(), outline: square }, PHOTO, 0), 'right')).toHaveLength(1);
});

test('without an outline nothing stands out', () => {
  expect(protrusions(figureOf(standing(), PHOTO, 0), 'left')).toEqual([]);
});

test('of anybody the outermost corner stands out, unless the photo’s own edge cut it', () => {
  fc.assert(
    fc.property(anybody, fc.constantFrom(...EDGE_NAMES), (person, edge) => {
      const any = figureOf(person, PHOTO, 0);
      const { outline } = any;
      fc.pre(outline !== undefined && outline.length >= 3 && !outline.some(({ cutByPhoto }) => cutByPhoto));
      const outwards = ({ x, y }: { x: number; y: number }) => ({ left: -x, right: x, top: -y, bottom: y })[edge];
      const outermost = Math.max(...outline.map(outwards));
      // All on one line: nothing stands out from it.
      fc.pre(outermost - Math.min(...outline.map(outwards)) >= 0.02 * any.height + 1e-6);
      expect(protrusions(any, edge).map(outwards)).toContain(outermost);
    }),
  );
});
