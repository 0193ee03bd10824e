import { COMPOSITIONS } from './manifest.ts';
import type { KeySchema, MapSchema, Schema } from './schema-kinds.ts';

/** The name of an output or a paper. */
export const IDENTIFIER = '^[A-Za-z0-9][A-Za-z0-9_.-]*$';

export const ASPECT: Schema = { kind: 'aspect' };
export const COMPOSE: Schema = { kind: 'choice', options: COMPOSITIONS };

function place(axis: string): Schema {
  return {
    kind: 'number',
    minimum: -10,
    maximum: 10,
    meaning: `a place is a fraction of the photo's ${axis}, at least −10 and at most 10 (0 is the photo's own edge)`,
  };
}

/** The last decimal that is written: less would be written as nothing. */
const LEAST_EXTENT = 0.0001;

function extent(name: string): Schema {
  return {
    kind: 'number',
    minimum: LEAST_EXTENT,
    maximum: 2,
    meaning: `a ${name} is a fraction of the photo's, above 0 (at least ${LEAST_EXTENT}) and at most 2 (1 is the whole ${name})`,
  };
}

export const CROP: MapSchema = {
  kind: 'map',
  meaning: 'a crop is { x: …, y: …, w: …, h: … } in fractions of the photo',
  keys: keys({
    x: {
      value: place('width'),
      help: 'Left edge, as a fraction of the photo’s width.',
      example: '0.1',
      required: true,
    },
    y: { value: place('height'), help: 'Top edge, as a fraction of its height.', example: '0.06', required: true },
    w: { value: extent('width'), help: 'Width, as a fraction of the photo’s width.', example: '0.8', required: true },
    h: { value: extent('height'), help: 'Height, as a fraction of its height.', example: '0.8', required: true },
  }),
};

export const EXAMPLE_CROP = '{ x: 0.1, y: 0.06, w: 0.8, h: 0.8 }';

/** Keys in the order in which they are written. */
export function keys(entries: Readonly<Record<string, KeySchema>>): ReadonlyMap<string, KeySchema> {
  return new Map(Object.entries(entries));
}
