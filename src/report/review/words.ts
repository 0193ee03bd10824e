import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Review, ReviewedFrame, ReviewSide } from '../../session/review/review.ts';
import { count } from '../text.ts';

/** `2 frames changed, 1 added, 0 removed; 14 as they were` */
export function reviewSummary({ frames, unchanged }: Review): string {
  const of = (kind: ReviewedFrame['kind']): number => frames.filter((frame) => frame.kind === kind).length;
  return `${count(of('changed'), 'frame')} changed, ${of('added')} added, ${of('removed')} removed; ${unchanged} as ${unchanged === 1 ? 'it was' : 'they were'}`;
}

/** `main (1a2b3c4d5e)` */
export function sinceWords({ revision, past }: Review): string {
  const hash = past.commit.slice(0, 10);
  return past.commit.startsWith(revision) ? hash : `${revision} (${hash})`;
}

/** What has to be known about the comparison as a whole. */
export function reviewNotes({ past, settings, isWithoutPhotos }: Review): string[] {
  const { then, name } = past;
  return [
    ...(then ? [] : [`That commit has no such manifest: every frame counts as added.`]),
    ...(then && then.name !== name ? [`The manifest was called ${then.name} then.`] : []),
    ...(then?.hasOwnPeople === false
      ? ['That commit has no people file: crops of then are judged by what is measured today.']
      : []),
    ...(settings.length > 0 ? [`Changed over all frames: ${settings.join(', ')}.`] : []),
    ...(isWithoutPhotos ? ['None of the photos is here: what is drawn comes from the people file.'] : []),
  ];
}

/** `three-quarter length, now half length`, or the one that it is. */
export function lengthWords({ then, now }: ReviewedFrame): string | undefined {
  const before = wordsOf(then);
  const after = wordsOf(now);
  if (!then || !now || before === after) return after ?? before;
  return `${before ?? 'no length known'}, now ${after ?? 'no length known'}`;
}

export function isLengthChanged({ then, now }: ReviewedFrame): boolean {
  return then !== undefined && now !== undefined && then.check.length !== now.check.length;
}

function wordsOf(side: ReviewSide | undefined): string | undefined {
  const length = side?.check.length;
  return length && LENGTH_WORDS[length];
}

/** Everything that is said otherwise about a frame, a short sentence each. */
export function changeWords(frame: ReviewedFrame): string[] {
  const { kind, movement, words } = frame;
  if (kind !== 'changed') return [`the frame was ${kind}`];
  const all = [...(movement?.words ?? []), ...words];
  return all.length > 0 ? all : ['the same entry, judged otherwise'];
}
