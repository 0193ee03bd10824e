import { atLeast, type HalfSpace } from '../../geometry/half-space.ts';
import { middleOf } from '../../geometry/points.ts';
import { headCutFrom } from '../../people/length-spans.ts';
import { lengthsThatMayHold } from '../length-limits.ts';
import { CROP_HEIGHT, minus, negative, notPositive } from '../limits.ts';
import type { Limit, Linear } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { percentBeside } from '../words.ts';
import { EYE_LINE_SETTINGS, eyeRange } from './table.ts';

export const eyeLine = defineRule({
  id: 'eye-line',
  summary: 'The eyes stand higher or lower than suits the length.',
  severity: 'info',
  unit: 'percent of the crop’s height from the top: the eyes (value), the end of the range (limit)',
  weight: WEIGHT.print,
  settings: EYE_LINE_SETTINGS,
  messages: {
    high: ({ bound }, value) =>
      `The eyes stand high: ${percentBeside(value, Number(bound))} from the top; from ${String(bound)} % they rest.`,
    low: ({ bound }, value) =>
      `The eyes stand low: ${percentBeside(value, Number(bound))} from the top; up to ${String(bound)} % they rest.`,
  },
  limits: (scene, settings) => {
    const faces = scene.facing.flatMap((figure) => figure.face ?? []);
    if (faces.length === 0) return [];
    const eyes = middleOf(...faces.map((face) => face.eyes)).y;
    const down: Linear = { top: -1, constant: eyes };
    return lengthsThatMayHold(scene).flatMap(({ length, otherwise }) => {
      const range = eyeRange(length, settings);
      if (!range) return [];
      const [from, to] = range;
      const away = [...otherwise, ...headDecides(length, scene.tallest)];
      const limit = (message: 'high' | 'low', bound: number, escape: HalfSpace): Limit => ({
        message,
        arguments: { bound: Math.round(bound * 1000) / 10 },
        escapes: [escape, ...away],
        deeper: 0,
        edge: 'top',
        measure: { of: down, per: CROP_HEIGHT },
        bound: Math.round(bound * 1000) / 10,
      });
      return [
        limit('high', from, notPositive(minus(negative(down), CROP_HEIGHT, -from))),
        limit('low', to, notPositive(minus(down, CROP_HEIGHT, to))),
      ];
    });
  },
});

/** A head cut on purpose makes a close-up of what would be head and shoulders. */
function headDecides(length: string, tallest: Parameters<typeof headCutFrom>[0] | undefined): HalfSpace[] {
  if (!tallest) return [];
  return length === 'head-and-shoulders' ? [atLeast('top', headCutFrom(tallest))] : [];
}
