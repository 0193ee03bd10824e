import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LENGTHS } from '../../people/lengths.ts';
import type { SheetFrame } from '../sheet-messages.ts';
import { choicesOf, filtered, type Filter } from './filter.ts';

const FRAME: SheetFrame = { index: 0, name: '0001.jpg', isFinal: false, findings: [], picture: 'a' };
const NOBODY = new Set<number>();

const frames = fc
  .array(
    fc.record(
      {
        length: fc.constantFrom(...LENGTHS),
        people: fc.nat(4),
        findings: fc.array(
          fc.record({
            rule: fc.constantFrom('headroom', 'joint-cut', 'face-cut'),
            severity: fc.constantFrom('error', 'warning', 'info'),
            message: fc.constant('…'),
          }),
          { maxLength: 4 },
        ),
      },
      { requiredKeys: ['findings'] },
    ),
    { maxLength: 30 },
  )
  .map((all) => all.map((each, index): SheetFrame => ({ ...FRAME, ...each, index, name: `${index}.jpg` })));

it('each choice lets through as many frames as it says', () => {
  fc.assert(
    fc.property(frames, (all) => {
      const choices = choicesOf(all);
      const shown = (filter: Filter): number => filtered(all, filter, NOBODY).length;
      for (const { value, frames: number } of choices.rules) expect(shown({ rule: value })).toBe(number);
      for (const { value, frames: number } of choices.severities) expect(shown({ severity: value })).toBe(number);
      for (const { value, frames: number } of choices.people) expect(shown({ people: value })).toBe(number);
      for (const { value, frames: number } of choices.lengths) expect(shown({ length: value })).toBe(number);
      expect(shown({})).toBe(all.length);
    }),
  );
});

it('what is chosen together narrows, and keeps the order', () => {
  fc.assert(
    fc.property(frames, (all) => {
      const both = filtered(all, { rule: 'headroom', people: 2 }, NOBODY);
      const one = filtered(filtered(all, { people: 2 }, NOBODY), { rule: 'headroom' }, NOBODY);
      expect(both).toEqual(one);
      expect(both.map(({ index }) => index)).toEqual(both.map(({ index }) => index).sort((a, b) => a - b));
    }),
  );
});

it('rule and severity must be of one finding', () => {
  const frame: SheetFrame = {
    ...FRAME,
    findings: [
      { rule: 'headroom', severity: 'info', message: '' },
      { rule: 'joint-cut', severity: 'error', message: '' },
    ],
  };
  expect(filtered([frame], { rule: 'headroom', severity: 'error' }, NOBODY)).toEqual([]);
  expect(filtered([frame], { rule: 'joint-cut', severity: 'error' }, NOBODY)).toEqual([frame]);
});

it('finds a piece of the name in any case, and what needs somebody', () => {
  const other = { ...FRAME, index: 1, name: 'Studio-02.JPG' };
  expect(filtered([FRAME, other], { name: ' studio ' }, NOBODY)).toEqual([other]);
  expect(filtered([FRAME, other], { needsYou: true }, new Set([0]))).toEqual([FRAME]);
});
