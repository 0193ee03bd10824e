import type { TextRange } from './manifest.ts';
import type { Schema } from './schema-kinds.ts';

/** The way to a value, and where its problems are shown when aliases or merge keys led away from the place. */
export interface Place {
  readonly key: string;
  readonly parent?: Place;
  readonly seen?: TextRange;
  /** The place is an entry of a list; `key` counts from 1. */
  readonly isItem?: true;
}

/** What a value of this schema is. */
export function meaningOf(schema: Schema): string {
  if (schema.meaning !== undefined) return schema.meaning;
  switch (schema.kind) {
    case 'choice':
      return `it is one of ${schema.options.join(', ')}`;
    case 'boolean':
      return 'it is true or false';
    case 'number':
      return 'it is a number';
    case 'aspect':
      return 'a shape is original, free or A:B, such as "2:3"';
    case 'measure':
      return 'a size is a number and its unit, such as 300mm';
    case 'severity-or-map':
      return 'it is a severity, or a map of settings';
    case 'text':
      return 'it is text';
    case 'list':
      return 'it is a list';
    case 'map':
      return 'it is a map';
  }
}

/** `crop.w`, `deliver.album.long`; `''` for the whole. */
export function pathOf(place: Place): string {
  const before = place.parent ? pathOf(place.parent) : '';
  return before === '' ? place.key : `${before}.${place.key}`;
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** What a message begins with: `crop.w`, `The second entry of subjects`. */
export function nameOf(place: Place): string {
  const path = pathOf(place);
  if (!place.isItem || !place.parent) return path === '' ? 'This entry' : path;
  const ordinal = ORDINALS[Number(place.key) - 1];
  const list = pathOf(place.parent);
  return ordinal === undefined ? `Entry ${place.key} of ${list}` : `The ${ordinal} entry of ${list}`;
}
