import type { KeySchema, MapSchema, Schema } from './schema-kinds.ts';
import type { TextPlace } from './text-place.ts';

/** Something that may be written at a place. */
export interface Proposal {
  readonly text: string;
  /** One line of help. */
  readonly help?: string;
  /** What a value of this key looks like, for a key. */
  readonly example?: string;
}

/** What the schema knows of a place: the values or keys that may stand there, and what kind of thing that is. */
export interface Proposals {
  readonly schema: Schema;
  readonly proposals: readonly Proposal[];
}

/** Shapes that are often asked for (common practice, no source). */
const SHAPES = ['"2:3"', '"4:5"', '"1:1"', '"5:7"', '"3:4"'];

/** What the schema proposes at a place; undefined where it knows nothing. */
export function proposalsAt(root: MapSchema, place: TextPlace): Proposals | undefined {
  const schema = place.path.reduce<Schema | undefined>((at, step) => at && inside(at, step), root);
  if (!schema) return undefined;
  const map = mapOf(schema);
  if (place.writes === 'key')
    return map && { schema, proposals: [...map.keys].map(([key, of]) => keyProposal(key, of)) };
  return { schema, proposals: values(schema) };
}

function inside(schema: Schema, step: string): Schema | undefined {
  if (step === '-') return schema.kind === 'list' ? schema.item : undefined;
  const map = mapOf(schema);
  return map?.keys.get(step)?.value ?? map?.dynamic?.value;
}

function mapOf(schema: Schema): MapSchema | undefined {
  if (schema.kind === 'map') return schema;
  return schema.kind === 'severity-or-map' ? schema.map : undefined;
}

function keyProposal(text: string, { help, example }: KeySchema): Proposal {
  return { text, help, example };
}

function values(schema: Schema): Proposal[] {
  switch (schema.kind) {
    case 'choice':
      return schema.options.map((text) => ({ text }));
    case 'boolean':
      return [{ text: 'true' }, { text: 'false' }];
    case 'aspect':
      return ['original', 'free', ...SHAPES].map((text) => ({ text }));
    case 'severity-or-map':
      return values(schema.map.keys.get('severity')!.value);
    case 'list':
      return values(schema.item);
    default:
      return [];
  }
}
