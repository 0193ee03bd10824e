import { middleOf } from '../../geometry/points.ts';
import { widthOf } from '../../geometry/shapes.ts';
import { CROP_WIDTH, minus, negative, notPositive } from '../limits.ts';
import type { Limit, Linear } from '../rule.ts';
import { defineRule } from '../rule.ts';
import type { Scene } from '../scene.ts';
import { WEIGHT } from '../weights.ts';
import { symmetryAxis } from './axis.ts';

export const placement = defineRule({
  id: 'placement',
  summary:
    'A subject, or the middle of a couple, stands on no third line and not in the centre, or off the centre of a centred frame; a scene’s own line of symmetry is off the centre of a centred frame.',
  severity: 'info',
  unit: 'percent of the crop’s width from the left: where the subject stands (value)',
  weight: WEIGHT.print,
  settings: {
    within: { default: 5, minimum: 0, maximum: 20, unit: '%', help: 'How near to a line is on it, of the width.' },
    axis: {
      default: 2,
      minimum: 0,
      maximum: 20,
      unit: '%',
      help: 'How near to the centre a scene’s own line of symmetry wants to be, of the width, in a centred frame.',
    },
  },
  messages: {
    between: ({ who, lines, move }, value) =>
      `${String(who)} at ${value.toFixed(0)} % of the width, off the lines. Move the crop by ${String(move)} px, to the ` +
      `${String(lines)}.`,
    'off-centre': ({ who, left, right, move, axis }, value) =>
      `${String(who)} at ${value.toFixed(0)} % of the width in a frame that is centred, with ${String(left)} px beside the body on ` +
      `the left and ${String(right)} px on the right. Move the crop by ${String(move)} px until it is 50 %.${String(axis)}`,
    axis: ({ who, move }, value) =>
      `The scene is symmetric about a line at ${value.toFixed(0)} % of the width, and ${lowered(String(who))} by it, in a frame that ` +
      `is centred. Move the crop by ${String(move)} px until the line is at 50 %.`,
  },
  limits: (scene, { within, axis: axisWithin }) => {
    const faces = scene.facing.flatMap((figure) => figure.face ?? []);
    if (scene.composition === 'free' || faces.length === 0 || faces.length > 2) return [];
    const middle = middleOf(...faces.map((face) => face.eyes)).x;
    const who = faces.length === 1 ? 'The subject stands' : 'The middle of the two stands';
    const axis = scene.composition === 'centred' ? symmetryAxis(scene) : undefined;
    // Nearer than this, centring the axis leaves the subject near enough to the centre.
    const isByAxis =
      axis !== undefined && Math.abs(axis - middle) <= ((within - axisWithin) / 100) * widthOf(scene.crop);
    const place = isByAxis ? axis : middle;
    const across: Linear = { left: -1, constant: place };
    const nearness = (isByAxis ? axisWithin : within) / 100;
    const places = linesOf(scene);
    const move = moveTo(places, place, scene);
    const words = { who, lines: linesWords(scene), move, axis: axisWords(axis, scene), ...margins(scene) };
    const message = isByAxis ? 'axis' : scene.composition === 'centred' ? 'off-centre' : 'between';
    // Between two lines: past the reach of the first and before the reach of the second.
    return gapsBetween(places, nearness).map(([from, to]): Limit => ({
      message,
      arguments: words,
      escapes: [
        ...(from === undefined ? [] : [notPositive(minus(across, CROP_WIDTH, from))]),
        ...(to === undefined ? [] : [notPositive(minus(negative(across), CROP_WIDTH, -to))]),
      ],
      deeper: 0,
      measure: { of: across, per: CROP_WIDTH },
    }));
  },
});

function lowered(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** Where a line of symmetry runs that nobody stands by. */
function axisWords(axis: number | undefined, { crop }: Scene): string {
  if (axis === undefined) return '';
  const percent = (100 * (axis - crop.left)) / widthOf(crop);
  return ` The scene itself is symmetric about a line at ${percent.toFixed(0)} %.`;
}

/** By how many pixels the crop moves sideways until the nearest of the lines is where the subject stands. */
function moveTo(lines: readonly number[], middle: number, { crop }: Scene): number {
  const away = lines.map((line) => Math.abs(middle - crop.left - line * widthOf(crop)));
  return Math.round(Math.min(...away));
}

/** What is beside the bodies of those who face us, in pixels. */
function margins({ facing, crop }: Scene): { left: number; right: number } {
  const left = Math.min(...facing.map(({ extent }) => extent.left)) - crop.left;
  const right = crop.right - Math.max(...facing.map(({ extent }) => extent.right));
  return { left: Math.round(Math.max(0, left)), right: Math.round(Math.max(0, right)) };
}

/** The upright lines that a subject may stand on, in shares of the width; none in a frame that is composed freely. */
export function linesOf(scene: Pick<Scene, 'composition' | 'upright'>): number[] {
  if (scene.composition === 'centred') return [1 / 2];
  return scene.upright ? [1 / 3, 1 / 2, 2 / 3] : [1 / 3, 2 / 3];
}

function linesWords(scene: Scene): string {
  return scene.upright ? 'nearest third or the centre' : 'nearest third';
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
