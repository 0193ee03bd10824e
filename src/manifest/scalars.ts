import type { Scalar } from 'yaml';
import { parseRatio } from '../geometry/ratio.ts';
import type { Aspect, Measure, MeasureUnit, ProblemCode } from './manifest.ts';
import { MEASURE_UNITS } from './manifest.ts';
import type { ChoiceSchema, MeasureSchema, NumberSchema, Schema, TextSchema } from './schema-kinds.ts';
import { nearestWord } from './spelling.ts';

/** What is wrong with a value; the message continues after the value's name. */
export interface Fault {
  readonly code: ProblemCode;
  readonly message: string;
  readonly suggestion?: string;
}

export type ScalarResult = { readonly value: string | number | boolean | Aspect | Measure } | { readonly fault: Fault };

/** Reads a scalar by its schema. */
export function readScalar(scalar: Scalar, schema: Schema): ScalarResult {
  switch (schema.kind) {
    case 'text':
      return readText(scalar, schema);
    case 'number':
      return readNumber(scalar, schema);
    case 'boolean':
      if (typeof scalar.value === 'boolean') return { value: scalar.value };
      return wrong('wrong-kind', `is ${written(scalar)}: write true or false`);
    case 'choice':
      return readChoice(scalar, schema);
    case 'aspect':
      return readAspect(scalar);
    case 'measure':
      return readMeasure(scalar, schema);
    case 'list':
    case 'map':
    case 'severity-or-map':
      return wrong('wrong-kind', `is ${written(scalar)}: ${schema.meaning ?? 'it is a map'}`);
  }
}

/** The value as it stands in the text, short enough for a message. */
export function written(scalar: Scalar): string {
  const text = typeof scalar.value === 'string' ? `"${scalar.value}"` : (scalar.source ?? String(scalar.value));
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

/**
 * Numbers out of quotes are text too (`session: 2024`), as they are written. The line break after a block scalar belongs
 * to its writing, not to the text.
 */
export function textOf(scalar: Scalar): string | undefined {
  if (typeof scalar.value === 'string') {
    return scalar.type?.startsWith('BLOCK') ? withoutLineBreaksAtEnd(scalar.value) : scalar.value;
  }
  return typeof scalar.value === 'number' || typeof scalar.value === 'bigint' ? scalar.source : undefined;
}

/** No regular expression: in a text of many line breaks each would be tried as the first of the last. */
function withoutLineBreaksAtEnd(text: string): string {
  let end = text.length;
  while (end > 0 && text[end - 1] === '\n') end--;
  return text.slice(0, end);
}

function readText(scalar: Scalar, schema: TextSchema): ScalarResult {
  const text = textOf(scalar);
  if (text === undefined) return wrong('wrong-kind', `is ${written(scalar)}: put it in quotes if it is meant as text`);
  if (schema.emptyMessage !== undefined && text.trim() === '') return wrong('empty-reason', schema.emptyMessage);
  if (schema.pattern !== undefined && !matches(text, schema.pattern)) {
    return wrong('unknown-value', `is ${written(scalar)}: ${schema.patternMeaning ?? ''}`);
  }
  return { value: text };
}

const patterns = new Map<string, RegExp>();

export function matches(text: string, pattern: string): boolean {
  let compiled = patterns.get(pattern);
  if (!compiled) patterns.set(pattern, (compiled = new RegExp(pattern, 'u')));
  return compiled.test(text);
}

const NO_COMMA = 'numbers have a point, not a comma';

function readNumber(scalar: Scalar, schema: NumberSchema): ScalarResult {
  const { value } = scalar;
  const meaning = schema.meaning ?? 'it is a number';
  if (typeof value !== 'number') {
    const quoted = typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
    const comma = typeof value === 'string' && /^-?\d+,\d+$/.test(value.trim());
    const hint = quoted ? '; take the quotes off' : comma ? `; ${NO_COMMA}` : '';
    return wrong('wrong-kind', `is ${written(scalar)}, not a number: ${meaning}${hint}`);
  }
  if (!Number.isFinite(value)) return wrong('out-of-bounds', `is ${written(scalar)}: ${meaning}`);
  const fits =
    (schema.minimum === undefined || value >= schema.minimum) &&
    (schema.above === undefined || value > schema.above) &&
    (schema.maximum === undefined || value <= schema.maximum) &&
    (!schema.integer || Number.isInteger(value));
  if (fits) return { value };
  const fraction = schema.maximum !== undefined && schema.maximum <= 10 && !schema.integer;
  const percent = fraction && value > schema.maximum && value <= 100;
  const hint = percent ? `; if you mean ${value} %, write ${Number((value / 100).toFixed(6))}` : '';
  return wrong('out-of-bounds', `is ${written(scalar)}: ${meaning}${hint}`);
}

/** With more options than that, the one that was probably meant says more than all of them. */
const MOST_NAMED = 12;

function readChoice(scalar: Scalar, schema: ChoiceSchema): ScalarResult {
  const text = textOf(scalar);
  if (text !== undefined && schema.options.includes(text)) return { value: text };
  const options = schema.options.length > 1 ? `one of ${schema.options.join(', ')}` : schema.options.join();
  const suggestion = text === undefined ? undefined : nearestWord(text, schema.options);
  const hint = suggestion === undefined ? '' : `did you mean ${suggestion}?`;
  const isLong = schema.options.length > MOST_NAMED;
  const what = hint === '' ? `it is ${options}` : isLong ? hint : `it is ${options}; ${hint}`;
  const message = `is ${written(scalar)}: ${what}`;
  return wrong('unknown-value', message, suggestion);
}

/** `2:3` is text in YAML 1.2, a number to base 60 in 1.1: what counts is what stands there. */
function readAspect(scalar: Scalar): ScalarResult {
  const text = textOf(scalar)?.trim();
  if (text === 'original' || text === 'free') return { value: { kind: text } };
  const ratio = text === undefined ? undefined : parseRatio(text);
  if (ratio) {
    const shape = ratio.a / ratio.b;
    if (shape >= 0.01 && shape <= 100) return { value: { kind: 'ratio', ...ratio } };
    return wrong('out-of-bounds', `is ${written(scalar)}: no side is over a hundred times the other`);
  }
  const alike = text === undefined ? null : /^(\d+(?:\.\d+)?)\s*[x×/*]\s*(\d+(?:\.\d+)?)$/i.exec(text);
  const suggestion = alike ? `"${alike[1]!}:${alike[2]!}"` : nearestWord(text ?? '', ['original', 'free']);
  const hint = suggestion === undefined ? '' : `; did you mean ${suggestion}?`;
  return wrong(
    'unknown-value',
    `is ${written(scalar)}: a shape is original, free or A:B, such as "2:3"${hint}`,
    suggestion,
  );
}

function readMeasure(scalar: Scalar, schema: MeasureSchema): ScalarResult {
  const text = textOf(scalar)?.trim() ?? '';
  const match = /^(\d+(?:\.\d+)?)\s*([a-z]*)$/i.exec(text);
  const amount = Number(match?.[1]);
  const unit = MEASURE_UNITS.find((known) => known === match?.[2]);
  const meaning = 'a size is a number and px, mm, cm or in, such as 300mm or 2048px';
  const comma = /^\d+,\d+/.test(text) ? `; ${NO_COMMA}` : '';
  if (!match) return wrong('unknown-value', `is ${written(scalar)}: ${meaning}${comma}`);
  if (!unit) {
    const suggestion = match[2] === '' ? undefined : nearestUnit(amount, match[2]!);
    const hint = match[2] === '' ? '; say the unit' : suggestion === undefined ? '' : `; did you mean ${suggestion}?`;
    return wrong('unknown-value', `is ${written(scalar)}: ${meaning}${hint}`, suggestion);
  }
  if (amount <= 0 && schema.zero !== 'allowed')
    return wrong('out-of-bounds', `is ${written(scalar)}: it must be above 0`);
  if (amount > 100_000) return wrong('out-of-bounds', `is ${written(scalar)}: it is at most 100000`);
  return { value: { amount, unit } };
}

function nearestUnit(amount: number, word: string): string | undefined {
  const others: Readonly<Record<string, MeasureUnit>> = { inch: 'in', inches: 'in', pixel: 'px', pixels: 'px' };
  const unit = others[word.toLowerCase()] ?? MEASURE_UNITS.find((known) => known === word.toLowerCase());
  return unit && `${amount}${unit}`;
}

function wrong(code: ProblemCode, message: string, suggestion?: string): { readonly fault: Fault } {
  return { fault: { code, message, ...(suggestion !== undefined && { suggestion }) } };
}
