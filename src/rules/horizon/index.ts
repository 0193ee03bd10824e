import { CROP_HEIGHT, minus, negative, notPositive } from '../limits.ts';
import type { Limit, Linear, Remark } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { horizonLine } from './line.ts';

export const horizon = defineRule({
  id: 'horizon',
  summary: 'The horizon runs through a head or a neck, or along the middle of a frame that is not centred.',
  severity: 'info',
  unit: 'percent of the crop’s height from the top: where the horizon runs (value)',
  weight: WEIGHT.print,
  settings: {
    middleFrom: { default: 46, minimum: 0, maximum: 50, unit: '%', help: 'Where the middle begins, of the height.' },
    middleTo: { default: 54, minimum: 50, maximum: 100, unit: '%', help: 'Where the middle ends, of the height.' },
  },
  messages: {
    middle: (_, value) =>
      `The horizon runs along the middle, ${value.toFixed(0)} % from the top. Give more to the sky or to the ground, or centre ` +
      'the frame on purpose.',
    through: ({ part, person }) =>
      `The horizon runs through the ${String(part)} of person ${String(person)}, and no crop changes that. A higher or lower ` +
      'camera puts it clear.',
  },
  limits: (scene, { middleFrom, middleTo }): Limit[] => {
    const line = scene.composition === 'centred' ? undefined : horizonLine(scene);
    if (!line) return [];
    const { slope, offset } = line;
    // In the crop's middle column, from the top edge down.
    const down: Linear = { left: slope / 2, right: slope / 2, top: -1, constant: offset };
    return [
      {
        message: 'middle',
        arguments: {},
        escapes: [
          notPositive(minus(down, CROP_HEIGHT, middleFrom / 100)),
          notPositive(minus(negative(down), CROP_HEIGHT, -middleTo / 100)),
        ],
        deeper: 0,
        measure: { of: down, per: CROP_HEIGHT },
      },
    ];
  },
  check: (scene): Remark[] => {
    const line = horizonLine(scene);
    if (!line) return [];
    return scene.facing.flatMap(({ id, face, headTop, lines }): Remark | never[] => {
      if (!face) return [];
      const y = line.slope * face.eyes.x + line.offset;
      if (y <= (headTop?.y ?? lines.headTop) || y >= lines.shoulder) return [];
      return { message: 'through', arguments: { part: y <= face.chin.y ? 'head' : 'neck' }, person: id };
    });
  },
});
