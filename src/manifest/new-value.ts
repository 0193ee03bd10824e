import type { Rectangle } from '../geometry/shapes.ts';
import type { Aspect } from './manifest.ts';

/** A value to write: one scalar, or a map of which each member is set. */
export type NewValue = NewScalar | NewMap;

export interface NewScalar {
  readonly value: string | number | boolean | null;
  /** As YAML, fit for flow and block style. */
  readonly text: string;
}

export interface NewMap {
  readonly members: ReadonlyMap<string, NewValue>;
}

/** A number with at most `decimals` decimals, without exponent and trailing zeros: `0.1`, `0.0625`, `-1.4`. */
export function formatNumber(value: number, decimals: number): string {
  const fixed = value.toFixed(decimals);
  const short = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return short === '-0' ? '0' : short;
}

export function newNumber(value: number, decimals: number): NewScalar {
  const text = formatNumber(value, decimals);
  return { value: Number(text), text };
}

/** Text in double quotes: a JSON string is one of YAML's. */
export function newText(value: string): NewScalar {
  return { value, text: quoted(value) };
}

/** A word of our own that needs no quotes. */
export function newWord(value: string | boolean | null): NewScalar {
  return { value, text: String(value) };
}

/** `original`, `free` or `2:3`. */
export function aspectText(aspect: Aspect): string {
  return aspect.kind === 'ratio' ? `${aspect.a}:${aspect.b}` : aspect.kind;
}

/** A ratio in quotes: without them `2:30` is a number to some readers of YAML. */
export function newAspect(aspect: Aspect): NewScalar {
  return aspect.kind === 'ratio' ? newText(aspectText(aspect)) : newWord(aspect.kind);
}

/** A crop with four decimals. */
export function newCrop({ x, y, w, h }: Rectangle): NewMap {
  const members = Object.entries({ x, y, w, h }).map(([key, value]): [string, NewScalar] => [key, newNumber(value, 4)]);
  return { members: new Map(members) };
}

/** The value in flow style, on one line. */
export function flowText(value: NewValue): string {
  if (!('members' in value)) return value.text;
  const members = [...value.members].map(([key, member]) => `${key}: ${flowText(member)}`);
  return members.length === 0 ? '{}' : `{ ${members.join(', ')} }`;
}

/** A file name or title: plain where YAML takes it for text anywhere, else in double quotes. */
export function plainOrQuoted(value: string): string {
  const plain =
    /^[\p{L}_][\p{L}\p{M}\p{N}_./-]*$|^\p{N}+[\p{L}\p{M}_-][\p{L}\p{M}\p{N}_./-]*\.[\p{L}]{2,}$|^\p{N}+\.\p{L}{2,}$/u;
  const special = /^(true|false|null|yes|no|on|off|y|n)$/i;
  return plain.test(value) && !special.test(value) ? value : quoted(value);
}

/** JSON leaves some characters as they are that YAML counts as line breaks or as not printable. */
function quoted(value: string): string {
  const unprintable = /[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]|\p{Cs}/gu;
  const escape = (character: string): string => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
  return JSON.stringify(value).replace(unprintable, escape);
}
