import { isDeepStrictEqual } from 'node:util';
import type { Crop, Frame, Located } from '../../manifest/manifest.ts';

/** What an entry of `frames` may say, but for the photo's name. */
export type FrameKey =
  'crop' | 'straighten' | 'aspect' | 'length' | 'subjects' | 'compose' | 'allow' | 'note' | 'final' | 'deliver';

type FrameValues = Readonly<Record<FrameKey, unknown>>;

/** What an entry says, without where it stands. */
export function valuesOf(frame: Frame): FrameValues {
  const { crop, straighten, aspect, length, subjects, compose, allow, note, final, deliver } = frame;
  return {
    crop: crop && numbersOf(crop),
    straighten: straighten?.value,
    aspect: aspect?.value,
    length: length?.value,
    subjects: subjects?.value,
    compose: compose?.value,
    allow: [...allow].map(([key, { value }]) => [key, value]).sort(byKey),
    note: note?.value,
    final: final?.value,
    deliver: [...deliver].map(([output, value]) => [output, numbersOf(value)] as const).sort(byKey),
  };
}

/** The keys that say something else. */
export function changedKeys(then: Frame, now: Frame): FrameKey[] {
  const before = valuesOf(then);
  const after = valuesOf(now);
  return (Object.keys(before) as FrameKey[]).filter((key) => !isDeepStrictEqual(before[key], after[key]));
}

function numbersOf({ value: { x, y, w, h } }: Located<Crop>): readonly number[] {
  return [x, y, w, h];
}

function byKey([one]: readonly unknown[], [other]: readonly unknown[]): number {
  return String(one) < String(other) ? -1 : 1;
}
