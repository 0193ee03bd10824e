import { degreesWords } from '../degrees-words.ts';
import { isHorizonSeen, levelDegrees } from '../levelling.ts';
import type { Remark } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { levellingCost } from './cost.ts';
import { costWords } from './words.ts';

export const tilt = defineRule({
  id: 'tilt',
  summary: 'The picture leans a little and is not straightened; what levelling it would cost.',
  severity: 'info',
  unit: 'degrees: the straighten that levels the picture (value), the least lean that is spoken of (limit)',
  weight: WEIGHT.print,
  settings: {
    horizon: {
      default: 0.5,
      minimum: 0.1,
      maximum: 8,
      unit: '°',
      help: 'The least lean that is spoken of, where the horizon was seen.',
    },
    verticals: {
      default: 1,
      minimum: 0.1,
      maximum: 8,
      unit: '°',
      help: 'The least lean that is spoken of, where only upright lines were seen.',
    },
    most: {
      default: 8,
      minimum: 0.1,
      maximum: 45,
      unit: '°',
      help: 'The most: a picture that leans further is meant so.',
    },
  },
  messages: {
    leans: ({ cost }, value) =>
      `The picture leans ${degreesWords(Math.abs(value))} ${value > 0 ? 'counter-clockwise' : 'clockwise'}; straighten by ` +
      `${degreesWords(value)} to level it. ${String(cost)}`,
  },
  check: (scene, { horizon, verticals, most }, configuration): Remark[] => {
    const degrees = levelDegrees(scene);
    if (degrees === undefined || scene.degrees !== 0) return [];
    const least = isHorizonSeen(scene) ? horizon : verticals;
    if (Math.abs(degrees) <= least || Math.abs(degrees) > most) return [];
    const cost = costWords(levellingCost(scene, degrees, configuration));
    return [{ message: 'leans', arguments: { cost }, value: degrees, bound: least }];
  },
});
