import fc from 'fast-check';
import { expect, it } from 'vitest';
import { all, keptIn, NOTHING, only, toggled, upTo } from './selection.ts';

const SHOWN = ['a', 'b', 'c', 'd', 'e'];

it('goes from where the last click was, in both directions', () => {
  const first = only(SHOWN, 2);
  expect([...upTo(first, SHOWN, 4).names]).toEqual(['c', 'd', 'e']);
  expect([...upTo(upTo(first, SHOWN, 4), SHOWN, 0).names]).toEqual(['a', 'b', 'c']);
});

it('changes one and keeps the others', () => {
  const two = toggled(only(SHOWN, 0), SHOWN, 3);
  expect([...two.names]).toEqual(['a', 'd']);
  expect([...toggled(two, SHOWN, 0).names]).toEqual(['d']);
  expect([...toggled(NOTHING, SHOWN, 9).names]).toEqual([]);
});

it('never keeps what is not shown', () => {
  fc.assert(
    fc.property(fc.subarray(SHOWN), fc.subarray(SHOWN), (selected, shown) => {
      const kept = keptIn({ names: new Set(selected), anchor: 4 }, shown);
      expect([...kept.names]).toEqual(shown.filter((name) => selected.includes(name)));
      expect(kept.anchor).toBeLessThan(Math.max(1, shown.length));
    }),
  );
  expect(all(SHOWN).names.size).toBe(5);
});
