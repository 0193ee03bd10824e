import type { HalfSpace } from '../../geometry/half-space.ts';
import { shapeWords } from '../../geometry/shape-words.ts';
import { CROP_HEIGHT, CROP_WIDTH, minus, negative, notPositive } from '../limits.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';

export const aspect = defineRule({
  id: 'aspect',
  summary: 'The crop does not have the shape that was asked for.',
  severity: 'warning',
  unit: 'percent of the height: the crop’s width (value), the width that the shape asks for (limit)',
  weight: WEIGHT.shape,
  settings: {
    tolerance: { default: 0.5, minimum: 0, maximum: 20, unit: '%', help: 'How far the shape may be off.' },
  },
  messages: {
    'too-wide': ({ asked }, value) => `${shapesWords(value, asked)} Take the sides in, or open top and bottom.`,
    'too-narrow': ({ asked }, value) => `${shapesWords(value, asked)} Take top and bottom in, or open the sides.`,
  },
  limits: (scene, { tolerance }) => {
    const { shape } = scene;
    if (shape === undefined) return [];
    const slack = tolerance / 100;
    return [
      limit('too-wide', shape, notPositive(minus(CROP_WIDTH, CROP_HEIGHT, shape * (1 + slack)))),
      limit('too-narrow', shape, notPositive(negative(minus(CROP_WIDTH, CROP_HEIGHT, shape * (1 - slack))))),
    ];
  },
});

function limit(message: 'too-wide' | 'too-narrow', shape: number, escape: HalfSpace): Limit {
  return {
    message,
    arguments: { asked: shape },
    escapes: [escape],
    deeper: 0,
    measure: { of: CROP_WIDTH, per: CROP_HEIGHT },
    bound: Math.round(shape * 1000) / 10,
  };
}

/** In percent: a shape that is nearer than this to the one asked for is told by how much it is off. */
const NEAR = 3;

function shapesWords(value: number, asked: string | number | undefined): string {
  // The value is rounded to tenths; a sliver's may be 0.
  const [is, wanted] = [Math.max(value, 0.1) / 100, Number(asked)];
  const off = (is / wanted - 1) * 100;
  const words = shapeWords(wanted, 1);
  if (Math.abs(off) >= NEAR) return `The crop is ${shapeWords(is, 1)}; the shape asked for is ${words}.`;
  return `The crop is ${Math.abs(off).toFixed(1)} % too ${off > 0 ? 'wide' : 'narrow'} for ${words}.`;
}
