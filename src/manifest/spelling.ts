import { distance } from 'fastest-levenshtein';

/** Words longer than any of ours are not compared: a megabyte of nonsense must not cost a second. */
const LONGEST = 60;

/** The known word that `word` was probably meant to be: at most a third of its letters off (swapping two counts as two), the nearest, then the first. */
export function nearestWord(word: string, known: Iterable<string>): string | undefined {
  if (word.length > LONGEST) return undefined;
  const lowered = word.toLowerCase().replaceAll('_', '-').replaceAll(' ', '-');
  let nearest: string | undefined;
  let smallest = (word.length < 3 ? 0 : Math.ceil(word.length / 3)) + 1;
  for (const candidate of known) {
    const steps = distance(lowered, candidate.toLowerCase().replaceAll('_', '-'));
    if (steps < smallest) {
      smallest = steps;
      nearest = candidate;
    }
  }
  return nearest;
}
