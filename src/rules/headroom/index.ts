import { atLeast, atMost } from '../../geometry/half-space.ts';
import type { HalfSpace } from '../../geometry/half-space.ts';
import { firmnessOf } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { headCutFrom, headCutTo } from '../../people/length-spans.ts';
import type { Length } from '../../people/lengths.ts';
import type { MeasuredPoint } from '../../people/person.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { lengthsThatMayHold } from '../length-limits.ts';
import { boxOut, CROP_HEIGHT, minus, negative, notPositive } from '../limits.ts';
import type { Limit, Linear } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { percent, percentBeside, verb } from '../words.ts';
import { HEADROOM_SETTINGS, headroomRange } from './table.ts';

const GRAZED = 2;

export const headroom = defineRule({
  id: 'headroom',
  summary: 'Too little or too much room over a head, a grazed head, or a head that is cut without being a close-up.',
  severity: 'warning',
  unit: 'percent of the crop’s height: room over the head (value), the least or most there may be (limit)',
  weight: WEIGHT.headroom,
  settings: HEADROOM_SETTINGS,
  messages: {
    least: (argument, value) => {
      const person = String(argument['person']);
      const bound = String(argument['bound']);
      if (value <= -GRAZED) {
        return (
          `The upper edge ${verb(argument, 'cuts')} the head of person ${person}, and this is no close-up. Open to ` +
          `${bound} % over the hair, or come in to a close-up.`
        );
      }
      if (value < GRAZED) {
        return (
          `The upper edge ${verb(argument, 'grazes')} the head of person ${person} (${percent(value)}). Leave ${bound} % over ` +
          'the hair, or cut clearly in a close-up.'
        );
      }
      return `Little room over the head of person ${person}: ${percentBeside(value, Number(bound))}, at least ${bound} % looks meant. Open the top.`;
    },
    most: ({ person, bound }, value) =>
      `Much room over the head of person ${String(person)}: ${percentBeside(value, Number(bound))} pulls the eye up; at most ${String(bound)} %. ` +
      'Bring the top down.',
    deep: ({ person }) =>
      `The upper edge cuts deep into the head of person ${String(person)}, below where a close-up may. Open to the hairline.`,
  },
  limits: (scene, settings) => {
    const highest = highestOf(scene.facing.length > 0 ? scene.facing : scene.counted);
    const bodies = scene.counted.flatMap((figure) => headOf(figure) ?? []);
    const limits: Limit[] = [];
    for (const { length, otherwise } of lengthsThatMayHold(scene)) {
      const [least, most] = headroomRange(length, settings);
      for (const head of bodies) {
        const away = [...otherwise, ...head.out];
        limits.push(...leastLimits(head, length, least, away));
        if (head.figure === highest) limits.push(mostLimit(head, length, most, settings.smallFigure / 100, away));
      }
    }
    return limits;
  },
});

/** A head with its face, and the conditions under which a crop has nothing of the face. */
interface Head {
  readonly figure: Figure;
  readonly top: MeasuredPoint;
  readonly out: readonly HalfSpace[];
}

function headOf(figure: Figure): Head | undefined {
  const { face, headTop } = figure;
  return face && headTop && { figure, top: headTop, out: boxOut(face.box) };
}

function highestOf(figures: readonly Figure[]): Figure | undefined {
  return figures.reduce<Figure | undefined>((highest, figure) => {
    if (!figure.face || !figure.headTop) return highest;
    return highest?.headTop && highest.headTop.y <= figure.headTop.y ? highest : figure;
  }, undefined);
}

/** Room over the head: from the top edge down to it. */
function roomOver(headTop: MeasuredPoint): Linear {
  return { top: -1, constant: headTop.y };
}

function leastLimits(
  { figure, top: headTop }: Head,
  length: Length,
  least: number,
  away: readonly HalfSpace[],
): Limit[] {
  const mayCutHead = length === 'close-up' || length === 'head-and-shoulders';
  const limit = (message: 'least' | 'deep', escapes: readonly HalfSpace[]): Limit => ({
    message,
    arguments: { person: figure.id, bound: Math.round(least * 1000) / 10 },
    escapes,
    deeper: measuringError(figure, 'head-top', headTop.confidence) / 2,
    edge: 'top',
    person: figure.id,
    possible: firmnessOf(headTop.confidence) !== 'firm',
    measure: { of: roomOver(headTop), per: CROP_HEIGHT },
    bound: Math.round(least * 1000) / 10,
  });
  // least · height − room ≤ 0
  const enough = notPositive(minus(negative(roomOver(headTop)), CROP_HEIGHT, -least));
  if (!mayCutHead) return [limit('least', [enough, ...away])];
  return [
    limit('least', [enough, atLeast('top', headCutFrom(figure)), ...away]),
    limit('deep', [atMost('top', headCutTo(figure)), ...away]),
  ];
}

function mostLimit(
  { figure, top: headTop }: Head,
  length: Length,
  most: number,
  smallFigure: number,
  away: readonly HalfSpace[],
): Limit {
  const escapes = [notPositive(minus(roomOver(headTop), CROP_HEIGHT, most)), ...away];
  if (length === 'full-length') {
    // The figure is under that share of the crop's height.
    escapes.push(notPositive(minus({ constant: figure.height }, CROP_HEIGHT, smallFigure)));
  }
  const bound = Math.round(most * 1000) / 10;
  return {
    message: 'most',
    arguments: { person: figure.id, bound },
    escapes,
    deeper: measuringError(figure, 'head-top', headTop.confidence) / 2,
    edge: 'top',
    person: figure.id,
    measure: { of: roomOver(headTop), per: CROP_HEIGHT },
    bound,
  };
}
