import { middleOf } from '../../geometry/points.ts';
import { lookingOf } from '../../people/looking.ts';
import { CROP_WIDTH, minus, notPositive } from '../limits.ts';
import type { Limit, Linear } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { percentBeside } from '../words.ts';

export const lookRoom = defineRule({
  id: 'look-room',
  summary: 'A turned head has less room ahead than behind.',
  severity: 'info',
  unit: 'percent of the crop’s width: what lies ahead of the look (value), the least (limit)',
  weight: WEIGHT.print,
  settings: {
    ahead: {
      default: 48,
      minimum: 0,
      maximum: 100,
      unit: '%',
      help: 'The least room ahead of a turned head, of the width.',
    },
  },
  messages: {
    little: ({ who, edge, bound }, value) =>
      `${String(who)} to the ${String(edge)}, with ${percentBeside(value, Number(bound))} of the width ahead; from ` +
      `${String(bound)} % the look has room. Move the crop to the ${String(edge)}.`,
  },
  limits: (scene, { ahead }): Limit[] => {
    // A profile in a centred frame is meant so.
    if (scene.composition === 'centred') return [];
    const facing = scene.facing.filter(({ face }) => face !== undefined);
    if (facing.length === 0 || facing.length > 2) return [];
    const [edge, other = edge] = facing.map(({ points }) => lookingOf(points));
    // Two who look at each other, or apart, hold the picture between them.
    if (edge === undefined || edge === 'ahead' || other !== edge) return [];
    const { x } = middleOf(...facing.flatMap(({ face }) => face?.eyes ?? []));
    const room: Linear = edge === 'right' ? { right: 1, constant: -x } : { left: -1, constant: x };
    return [
      {
        message: 'little',
        arguments: { who: facing.length === 1 ? 'The subject looks' : 'Both look', edge, bound: ahead },
        escapes: [notPositive(minus({ constant: 0 }, minus(room, CROP_WIDTH, ahead / 100)))],
        deeper: 0,
        edge,
        measure: { of: room, per: CROP_WIDTH },
        bound: ahead,
      },
    ];
  },
});
