import { nearestWord } from '../manifest/spelling.ts';
import type { Shard } from '../session/check-part.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';
import { BadCall } from './exit.ts';

/** A whole number that an option takes. */
export function wholeNumber(option: string, least: number, most = Infinity): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (/^-?\d+$/.test(text) && number >= least && number <= most) return number;
    const upTo = most === Infinity ? '' : ` to ${most}`;
    throw new BadCall(`${option} takes a whole number from ${least}${upTo}, not "${text}".`);
  };
}

/** One word of several. */
export function oneOf<Word extends string>(option: string, words: readonly Word[]): (text: string) => Word {
  return (text) => {
    const word = words.find((candidate) => candidate === text);
    if (word !== undefined) return word;
    const meant = nearestWord(text, words);
    throw new BadCall(
      `${option} takes ${listed(words)}, not "${text}".${meant === undefined ? '' : ` Did you mean ${meant}?`}`,
    );
  };
}

/** `text, json or sarif` */
function listed(words: readonly string[]): string {
  return [words.slice(0, -1).join(', '), words.at(-1)].join(' or ');
}

/** One of several machines that share the work: `2/3`. */
export function shardOf(text: string): Shard {
  const [, first, second] = /^(\d{1,5})\/(\d{1,5})$/.exec(text) ?? [];
  const number = Number(first);
  const of = Number(second);
  if (number >= 1 && number <= of) return { number, of };
  throw new BadCall(`--shard takes the shard and how many there are, such as 1/3, 2/3 and 3/3, not "${text}".`);
}

/** A rule of this version, added to those that were given before. */
export function ruleIds(text: string, before: readonly string[] = []): readonly string[] {
  const ids = RULE_CATALOGUE.map(({ id }) => id);
  if (ids.includes(text)) return [...before, text];
  const meant = nearestWord(text, ids);
  const hint = meant === undefined ? `The rules are ${ids.join(', ')}.` : `Did you mean ${meant}?`;
  throw new BadCall(`There is no rule "${text}" in this version. ${hint}`);
}

/** How a command is told to do one machine's part of the work. */
export const SHARD_OPTION = [
  '--shard <i/n>',
  'only this part of the frames, such as 1/3, for one of three machines',
  shardOf,
] as const;

/** How a command is told where photos are kept. */
export const PHOTOS_OPTION = [
  '--photos <dir>',
  'where the photos are, when they are not where the manifest says',
] as const;

/** What a command takes in the place of a manifest. */
export const MANIFEST_HELP = 'manifests, such as crops.yaml, or folders that have a crops.yaml';

/** What `--rule` has in common wherever it stands. */
export const RULE_HELP = ' (may be given several times); what keeps a frame from being checked is always told';
