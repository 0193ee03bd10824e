import { nearestWord } from '../manifest/spelling.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';
import { BadCall } from './exit.ts';

/** A whole number that an option takes. */
export function wholeNumber(option: string, least: number): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (/^-?\d+$/.test(text) && number >= least) return number;
    throw new BadCall(`${option} takes a whole number from ${least}, not "${text}".`);
  };
}

/** One word of several. */
export function oneOf<Word extends string>(option: string, words: readonly Word[]): (text: string) => Word {
  return (text) => {
    const word = words.find((candidate) => candidate === text);
    if (word !== undefined) return word;
    const meant = nearestWord(text, words);
    throw new BadCall(
      `${option} takes ${words.join(' or ')}, not "${text}".${meant === undefined ? '' : ` Did you mean ${meant}?`}`,
    );
  };
}

/** A rule of this version. */
export function ruleId(text: string): string {
  const ids = RULE_CATALOGUE.map(({ id }) => id);
  if (ids.includes(text)) return text;
  const meant = nearestWord(text, ids);
  const hint = meant === undefined ? `The rules are ${ids.join(', ')}.` : `Did you mean ${meant}?`;
  throw new BadCall(`There is no rule "${text}" in this version. ${hint}`);
}

/** How a command is told where photos are kept. */
export const PHOTOS_OPTION = [
  '--photos <dir>',
  'where the photos are, when they are not where the manifest says',
] as const;
