import fc from 'fast-check';
import { expect, test } from 'vitest';
import { atLeast, atMost, excess } from './half-space.ts';
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
