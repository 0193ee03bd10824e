import fc from 'fast-check';
import { expect, it } from 'vitest';
import { applyEdits } from '../manifest/text-edit.ts';
import { differenceOf } from './text-difference.ts';

it('makes the one text into the other with the smallest single edit', () => {
  expect(differenceOf('x: 0.1', 'x: 0.2')).toEqual({ start: 5, end: 6, text: '2' });
  expect(differenceOf('same', 'same')).toBeUndefined();
  const few = fc.string({ unit: fc.constantFrom('a', 'b', '\n'), maxLength: 12 });
  fc.assert(
    fc.property(few, few, (before, after) => {
      const edit = differenceOf(before, after);
      expect(edit ? applyEdits(before, [edit]) : before).toBe(after);
    }),
  );
});
