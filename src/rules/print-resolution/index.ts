import { CROP_HEIGHT, CROP_WIDTH, minus, notPositive, pixels } from '../limits.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';

/** Prints up to these long sides are looked at from near, from an arm's length, and from farther away, in centimetres. */
const SMALL = 30;
const MIDDLE = 60;
const CENTIMETRES = 2.54;
/** This share more is good and not only enough. */
const GOOD = 4 / 3;

export const printResolution = defineRule({
  id: 'print-resolution',
  summary: 'An output on paper gets too few pixels for the distance it is looked at from.',
  severity: 'warning',
  unit: 'pixels of the crop per inch of paper (value), the least (limit)',
  weight: WEIGHT.print,
  settings: {
    small: { default: 180, minimum: 10, maximum: 1200, unit: 'ppi', help: 'Least for a long side up to 30 cm.' },
    middle: { default: 130, minimum: 10, maximum: 1200, unit: 'ppi', help: 'Least for a long side up to 60 cm.' },
    large: { default: 90, minimum: 10, maximum: 1200, unit: 'ppi', help: 'Least for a longer side.' },
  },
  messages: {
    few: ({ least, good }, value) =>
      `The crop gives ${Math.round(value)} pixels per inch of paper; a print of this size wants ${String(least)} at least, and is ` +
      `good from ${String(good)}. Open the crop, or print smaller.`,
  },
  limits: ({ print, upright }, { small, middle, large }) => {
    if (print?.inches === undefined) return [];
    const long = print.inches * CENTIMETRES;
    const least = long <= SMALL ? small : long <= MIDDLE ? middle : large;
    const needed = pixels(least * print.inches);
    return [
      {
        message: 'few',
        arguments: { least, good: Math.round(least * GOOD) },
        // The longer side is long enough when one of them is.
        escapes: [notPositive(minus(needed, CROP_WIDTH)), notPositive(minus(needed, CROP_HEIGHT))],
        deeper: 0,
        // A measure is told in percent of what it is compared with.
        measure: { of: upright ? CROP_HEIGHT : CROP_WIDTH, per: pixels(100 * print.inches) },
        bound: least,
      },
    ];
  },
});
