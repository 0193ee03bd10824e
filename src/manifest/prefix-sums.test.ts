import fc from 'fast-check';
import { expect, it } from 'vitest';
import { countBelow, PrefixSums } from './prefix-sums.ts';

it('sums what stands before an item, whatever was added in whatever order', () => {
  const additions = fc.array(fc.tuple(fc.nat(30), fc.integer({ min: -9, max: 9 })), { maxLength: 60 });
  fc.assert(
    fc.property(additions, fc.nat(31), (added, index) => {
      const sums = new PrefixSums(31);
      for (const [at, amount] of added) sums.add(at, amount);
      const expected = added.reduce((sum, [at, amount]) => sum + (at < index ? amount : 0), 0);
      expect(sums.before(index)).toBe(expected);
    }),
  );
});

it('counts ascending values below a bound', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(20)), fc.nat(21), (values, bound) => {
      const sorted = [...values].sort((one, other) => one - other);
      const expected = values.filter((value) => value < bound).length;
      expect(countBelow(sorted.length, (at) => sorted[at]! < bound)).toBe(expected);
    }),
  );
});
