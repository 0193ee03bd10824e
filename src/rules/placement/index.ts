import { middleOf } from '../../geometry/points.ts';
import { CROP_WIDTH, minus, negative, notPositive } from '../limits.ts';
import type { Limit, Linear } from '../rule.ts';
import { defineRule } from '../rule.ts';
import type { Scene } from '../scene.ts';
import { WEIGHT } from '../weights.ts';

export const placement = defineRule({
  id: 'placement',
  summary:
    'A subject, or the middle of a couple, stands on no third line and not in the centre, or off the centre of a centred frame.',
  severity: 'info',
  unit: 'percent of the crop’s width from the left: where the subject stands (value)',
  weight: WEIGHT.print,
  settings: {
    within: { default: 5, minimum: 0, maximum: 20, unit: '%', help: 'How near to a line is on it, of the width.' },
  },
  messages: {
    between: ({ who, lines }, value) =>
      `${String(who)} at ${value.toFixed(0)} % of the width, off the lines. ${String(lines)}`,
    'off-centre': ({ who }, value) =>
      `${String(who)} at ${value.toFixed(0)} % of the width in a frame that is centred. Move the crop until it is 50 %.`,
  },
  limits: (scene, { within }) => {
    const faces = scene.facing.flatMap((figure) => figure.face ?? []);
    if (scene.composition === 'free' || faces.length === 0 || faces.length > 2) return [];
    const middle = middleOf(...faces.map((face) => face.eyes)).x;
    const who = faces.length === 1 ? 'The subject stands' : 'The middle of the two stands';
    const across: Linear = { left: -1, constant: middle };
    const nearness = within / 100;
    const places = linesOf(scene);
    // Between two lines: past the reach of the first and before the reach of the second.
    return gapsBetween(places, nearness).map(([from, to]): Limit => ({
      message: scene.composition === 'centred' ? 'off-centre' : 'between',
      arguments: { who, lines: linesWords(scene) },
      escapes: [
        ...(from === undefined ? [] : [notPositive(minus(across, CROP_WIDTH, from))]),
        ...(to === undefined ? [] : [notPositive(minus(negative(across), CROP_WIDTH, -to))]),
      ],
      deeper: 0,
      measure: { of: across, per: CROP_WIDTH },
    }));
  },
});

function linesOf(scene: Scene): number[] {
  if (scene.composition === 'centred') return [1 / 2];
  return scene.upright ? [1 / 3, 1 / 2, 2 / 3] : [1 / 3, 2 / 3];
}

function linesWords(scene: Scene): string {
  return scene.upright ? 'Move to the nearest third, or to the centre.' : 'Move to the nearest third.';
}

/** The open ranges that no line reaches: before the first, between each two, after the last. */
function gapsBetween(lines: readonly number[], nearness: number): [number | undefined, number | undefined][] {
  const gaps: [number | undefined, number | undefined][] = [];
  let end: number | undefined;
  for (const line of lines) {
    if (end === undefined || line - nearness > end) gaps.push([end, line - nearness]);
    end = line + nearness;
  }
  gaps.push([end, undefined]);
  return gaps;
}
