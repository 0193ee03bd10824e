import { MEASURE_UNITS } from './manifest.ts';
import { manifestSchema } from './schema.ts';
import type { KeySchema, MapSchema, NumberSchema, RuleCatalogue, Schema } from './schema-kinds.ts';

/** A JSON Schema, or a part of one. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/**
 * The manifest's JSON Schema (draft-07, which editors' YAML support reads), with the settings of the given rules. It
 * accepts what parseManifest reads without an error: unknown keys pass here, and are warnings there.
 */
export function jsonSchema(rules: RuleCatalogue): JsonSchema {
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'Selvedge manifest',
    description: 'The crops of one session.',
    ...convert(manifestSchema(rules)),
  };
}

const DECIMAL = '\\d+(\\.\\d+)?';

function convert(schema: Schema): JsonSchema {
  switch (schema.kind) {
    case 'text':
      // Numbers out of quotes are taken as they are written.
      return {
        type: ['string', 'number'],
        ...(schema.pattern !== undefined && { pattern: schema.pattern }),
        ...(schema.emptyMessage !== undefined && { pattern: '\\S' }),
      };
    case 'number':
      return number(schema);
    case 'boolean':
      return { type: 'boolean' };
    case 'choice':
      return { enum: schema.options };
    case 'aspect':
      return { type: 'string', pattern: `^\\s*(original|free|${DECIMAL}\\s*:\\s*${DECIMAL})\\s*$` };
    case 'measure':
      return { type: 'string', pattern: `^\\s*${DECIMAL}\\s*(${MEASURE_UNITS.join('|')})\\s*$` };
    case 'list':
      return {
        type: 'array',
        items: convert(schema.item),
        ...(schema.minimumItems !== undefined && { minItems: schema.minimumItems }),
      };
    case 'map':
      return map(schema);
    case 'severity-or-map':
      return { anyOf: [convert(schema.map.keys.get('severity')!.value), map(schema.map)] };
  }
}

function number(schema: NumberSchema): JsonSchema {
  return {
    type: schema.integer ? 'integer' : 'number',
    ...(schema.minimum !== undefined && { minimum: schema.minimum }),
    ...(schema.above !== undefined && { exclusiveMinimum: schema.above }),
    ...(schema.maximum !== undefined && { maximum: schema.maximum }),
  };
}

function map(schema: MapSchema): JsonSchema {
  const required = [...schema.keys].filter(([, key]) => key.required).map(([name]) => name);
  const conflicts = (schema.conflicts ?? []).map((pair) => ({ not: { required: pair } }));
  return {
    type: 'object',
    properties: Object.fromEntries([...schema.keys].map(([name, key]) => [name, property(key)])),
    ...(schema.dynamic && {
      patternProperties: { [`^(?!x-)${schema.dynamic.pattern.slice(1)}`]: property(schema.dynamic) },
    }),
    ...(required.length > 0 && { required }),
    ...(conflicts.length > 0 && { allOf: conflicts }),
    ...(schema.anyOf && { anyOf: schema.anyOf.map((name) => ({ required: [name] })) }),
  };
}

function property(key: Omit<KeySchema, 'required'>): JsonSchema {
  const value = convert(key.value);
  return { description: key.help, ...(key.nullable ? { anyOf: [value, { type: 'null' }] } : value) };
}
