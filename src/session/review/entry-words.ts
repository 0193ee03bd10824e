import type { Aspect, Frame } from '../../manifest/manifest.ts';
import { DEFAULT_COMPOSITION } from '../../manifest/manifest.ts';
import type { FrameKey } from './frame-values.ts';
import type { Touch } from './touched.ts';

/** What a frame's entry says otherwise than before, but for its crop; and what happened to its photo. */
export function entryWords(then: Frame, now: Frame, { keys, photo, measured }: Touch): string[] {
  return [
    ...keys.flatMap((key) => wordsFor(key, then, now)),
    ...(photo ? ['the photo is another one: its bytes have changed'] : []),
    ...(measured && !photo ? ['the people in it were measured anew'] : []),
  ];
}

function wordsFor(key: FrameKey, then: Frame, now: Frame): string[] {
  const change = (what: string, before: string | undefined, after: string | undefined): string[] => [
    `${what}: ${before ?? 'not said'}, now ${after ?? 'not said'}`,
  ];
  switch (key) {
    // Crop and turning, and the crops of outputs, are told as movement.
    case 'crop':
      return now.crop ? (then.crop ? [] : ['the crop is written now']) : ['the crop is no longer written'];
    case 'straighten':
    case 'deliver':
      return [];
    case 'aspect':
      return change('shape asked for', aspectWords(then.aspect?.value), aspectWords(now.aspect?.value));
    case 'length':
      return change('length asked for', then.length?.value, now.length?.value);
    case 'subjects':
      return change('people that count', listed(then.subjects?.value), listed(now.subjects?.value));
    case 'compose':
      return change('composition', then.compose?.value ?? DEFAULT_COMPOSITION, now.compose?.value ?? DEFAULT_COMPOSITION); // prettier-ignore
    case 'allow':
      return allowWords(then, now);
    case 'note':
      return [now.note ? `note: “${now.note.value}”` : 'the note is gone'];
    case 'final':
      return [now.final?.value === true ? 'approved (final)' : 'no longer approved'];
  }
}

function allowWords(then: Frame, now: Frame): string[] {
  const added = [...now.allow].filter(([key, { value }]) => then.allow.get(key)?.value !== value);
  const removed = [...then.allow.keys()].filter((key) => !now.allow.has(key));
  return [
    ...added.map(([key, { value }]) => `allowed: ${key}, “${value}”`),
    ...removed.map((key) => `no longer allowed: ${key}`),
  ];
}

function aspectWords(aspect: Aspect | undefined): string | undefined {
  return aspect && (aspect.kind === 'ratio' ? `${aspect.a}:${aspect.b}` : aspect.kind);
}

function listed(ids: readonly number[] | undefined): string | undefined {
  return ids?.join(', ');
}
