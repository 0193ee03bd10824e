import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Frame } from '../../manifest/manifest.ts';
import { parseManifest } from '../../manifest/parse.ts';
import { RULE_CATALOGUE } from '../file-rules.ts';
import { pairFrames, type FramePair } from './pair-frames.ts';

/** A frame by its photo and where its crop begins, in hundredths. */
type Entry = readonly [photo: string, x: number];

function framesOf(entries: readonly Entry[]): readonly Frame[] {
  const list = entries.map(([photo, x]) => `  - photo: ${photo}\n    crop: { x: ${x / 100}, y: 0, w: 0.2, h: 0.2 }\n`);
  return parseManifest(`selvedge: 1\nframes:\n${list.join('')}`, RULE_CATALOGUE).frames;
}

function pairs(
  then: readonly Entry[],
  now: readonly Entry[],
  digests: Readonly<Record<string, string>> = {},
): string[] {
  const side = (entries: readonly Entry[]) => ({
    frames: framesOf(entries),
    digestOf: (photo: string) => digests[photo],
  });
  const shown = (frame: Frame | undefined): string =>
    frame ? `${frame.photo.value} ${Math.round(frame.crop!.value.x * 100)}` : 'none';
  return pairFrames(side(then), side(now)).map((pair: FramePair) => `${shown(pair.then)} > ${shown(pair.now)}`);
}

test.each<[string, Entry[], Entry[], string[]]>([
  ['order does not count', [['a.jpg', 1], ['b.jpg', 2]], [['b.jpg', 2], ['a.jpg', 3]], ['b.jpg 2 > b.jpg 2', 'a.jpg 1 > a.jpg 3']],
  ['of one photo, what says the same', [['a.jpg', 1], ['a.jpg', 50]], [['a.jpg', 50]], ['a.jpg 50 > a.jpg 50', 'a.jpg 1 > none']],
  ['of one photo, what lies nearest', [['a.jpg', 1], ['a.jpg', 50]], [['a.jpg', 48], ['a.jpg', 3]], ['a.jpg 50 > a.jpg 48', 'a.jpg 1 > a.jpg 3']],
  ['added and removed', [['a.jpg', 1]], [['b.jpg', 1]], ['none > b.jpg 1', 'a.jpg 1 > none']],
  ['moved into a folder', [['a.jpg', 1]], [['final/A.jpg', 1]], ['a.jpg 1 > final/A.jpg 1']],
  ['two of that name: nobody knows', [['x/a.jpg', 1], ['y/a.jpg', 1]], [['a.jpg', 1]], ['none > a.jpg 1', 'x/a.jpg 1 > none', 'y/a.jpg 1 > none']],
])('%s', (_, then, now, expected) => {
  expect(pairs(then, now)).toEqual(expected);
}); // prettier-ignore

test('another name, the same digest; the digest counts before the name', () => {
  const digests = { 'a.jpg': 'one', 'x/b.jpg': 'one', 'b.jpg': 'two', 'c.jpg': 'two' };
  const then: Entry[] = [['a.jpg', 1], ['b.jpg', 2]]; // prettier-ignore
  const now: Entry[] = [['x/b.jpg', 1], ['c.jpg', 2]]; // prettier-ignore
  expect(pairs(then, now, digests)).toEqual(['a.jpg 1 > x/b.jpg 1', 'b.jpg 2 > c.jpg 2']);
});

const entries = fc.array(fc.tuple(fc.constantFrom('a.jpg', 'b.jpg', 'x/a.jpg'), fc.integer({ min: 0, max: 80 })), {
  minLength: 1,
  maxLength: 8,
});

test('every frame of both sides is in exactly one pair, and what is the same is paired with itself', () => {
  fc.assert(
    fc.property(entries, entries, (then, now) => {
      const side = (given: readonly Entry[]) => ({ frames: framesOf(given), digestOf: () => undefined });
      const [before, after] = [side(then), side(now)];
      const all = pairFrames(before, after);
      expect(new Set(all.flatMap((pair) => pair.then ?? [])).size).toBe(before.frames.length);
      expect(all.flatMap((pair) => pair.now ?? [])).toEqual(after.frames);
      expect(all.filter((pair) => pair.then).length).toBe(before.frames.length);
      expect(pairs(now, now).every((pair) => pair.split(' > ')[0] === pair.split(' > ')[1])).toBe(true);
    }),
    { numRuns: 60 },
  );
});
