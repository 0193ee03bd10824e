import fc from 'fast-check';
import { expect, test } from 'vitest';
import { atLeast, atMost, excess, sensitivity } from './half-space.ts';
import { EDGE_NAMES } from './shapes.ts';

const line = fc.integer({ min: -1000, max: 9000 });
const edges = fc.record({ left: line, top: line, right: line, bottom: line });
const edge = fc.constantFrom(...EDGE_NAMES);

test('at most and at least miss by the distance to the line', () => {
  fc.assert(
    fc.property(edges, edge, line, (crop, name, value) => {
      expect(excess(atMost(name, value), crop)).toBe(crop[name] - value);
      expect(excess(atLeast(name, value), crop)).toBe(value - crop[name]);
    }),
  );
});

test('no move of the edges by a step changes the excess by more than the sensitivity', () => {
  const coefficient = fc.double({ min: -3, max: 3, noNaN: true });
  const condition = fc.record({
    left: coefficient,
    top: coefficient,
    right: coefficient,
    bottom: coefficient,
    atMost: line,
  });
  const move = fc.double({ min: -1, max: 1, noNaN: true });
  fc.assert(
    fc.property(condition, edges, fc.tuple(move, move, move, move), (any, crop, [left, top, right, bottom]) => {
      const moved = {
        left: crop.left + 0.4 * left,
        right: crop.right + 0.4 * right,
        top: crop.top + 0.6 * top,
        bottom: crop.bottom + 0.6 * bottom,
      };
      expect(Math.abs(excess(any, moved) - excess(any, crop))).toBeLessThanOrEqual(sensitivity(any, 0.4, 0.6) + 1e-9);
    }),
  );
});
