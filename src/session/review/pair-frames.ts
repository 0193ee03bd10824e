import type { Frame } from '../../manifest/manifest.ts';
import { cropOf } from '../frame-scene.ts';
import { changedKeys } from './frame-values.ts';

/** The same frame then and now; one that was added or removed has one side alone. */
export interface FramePair {
  readonly then?: Frame;
  readonly now?: Frame;
}

/** The frames of one manifest, and what is known of their photos. */
export interface FramesAndDigests {
  readonly frames: readonly Frame[];
  /** Of a photo's bytes. */
  readonly digestOf: (photo: string) => string | undefined;
}

/** Beyond so many frames of one photo they are paired in their order. */
const MOST_COMPARED = 50;

/**
 * Which frame is which: by the photo's name; a photo that has another name now is known by its digest, else by its
 * file's name in another folder. Of several frames of a photo those belong together that say the same, then those whose
 * crops are nearest.
 * @returns today's frames in their order, then those that are gone
 */
export function pairFrames(then: FramesAndDigests, now: FramesAndDigests): FramePair[] {
  const before = byPhoto(then.frames);
  const after = byPhoto(now.frames);
  const renamed = renamedPhotos(then, now, before, after);
  const partners = new Map<Frame, Frame>();
  for (const [photo, frames] of after) {
    const old = before.get(renamed.get(photo) ?? photo) ?? [];
    for (const [one, other] of pairsOf(old, frames)) partners.set(other, one);
  }
  const taken = new Set(partners.values());
  return [
    ...now.frames.map((frame) => {
      const partner = partners.get(frame);
      return { ...(partner && { then: partner }), now: frame };
    }),
    ...then.frames.filter((frame) => !taken.has(frame)).map((frame) => ({ then: frame })),
  ];
}

/** By the photo's name today, the name that it had. */
function renamedPhotos(
  then: FramesAndDigests,
  now: FramesAndDigests,
  before: ReadonlyMap<string, unknown>,
  after: ReadonlyMap<string, unknown>,
): ReadonlyMap<string, string> {
  const renamed = new Map<string, string>();
  const gone = new Set([...before.keys()].filter((photo) => !after.has(photo)));
  const fresh = new Set([...after.keys()].filter((photo) => !before.has(photo)));
  const match = (nameOld: (photo: string) => string | undefined, nameNew: typeof nameOld): void => {
    const olds = onlyOnes(gone, nameOld);
    for (const [name, photo] of onlyOnes(fresh, nameNew)) {
      const old = olds.get(name);
      if (old === undefined) continue;
      renamed.set(photo, old);
      gone.delete(old);
      fresh.delete(photo);
    }
  };
  match(then.digestOf, now.digestOf);
  match(baseOf, baseOf);
  return renamed;
}

/** Photos by a name that only one of them has. */
function onlyOnes(
  photos: Iterable<string>,
  nameOf: (photo: string) => string | undefined,
): ReadonlyMap<string, string> {
  const all = new Map<string, string[]>();
  for (const photo of photos) {
    const name = nameOf(photo);
    if (name !== undefined) all.set(name, [...(all.get(name) ?? []), photo]);
  }
  return new Map([...all].flatMap(([name, [photo, ...others]]) => (others.length === 0 ? [[name, photo!]] : [])));
}

function baseOf(photo: string): string {
  return photo.slice(photo.lastIndexOf('/') + 1).toLowerCase();
}

function byPhoto(frames: readonly Frame[]): ReadonlyMap<string, readonly Frame[]> {
  const photos = new Map<string, Frame[]>();
  for (const frame of frames) {
    const known = photos.get(frame.photo.value);
    if (known) known.push(frame);
    else photos.set(frame.photo.value, [frame]);
  }
  return photos;
}

function pairsOf(then: readonly Frame[], now: readonly Frame[]): [Frame, Frame][] {
  if (Math.max(then.length, now.length) > MOST_COMPARED) {
    return now.flatMap((frame, place): [Frame, Frame][] => (then[place] ? [[then[place], frame]] : []));
  }
  const all = now.flatMap((after, place) =>
    then.map((before, placeThen) => ({
      before,
      after,
      // What says the same first; at equal distance, what stands at the same place.
      cost: [changedKeys(before, after).length === 0 ? 0 : 1, distance(before, after), Math.abs(place - placeThen)],
    })),
  );
  all.sort((one, other) => firstDifference(one.cost, other.cost));
  const taken = new Set<Frame>();
  return all.flatMap(({ before, after }): [Frame, Frame][] => {
    if (taken.has(before) || taken.has(after)) return [];
    taken.add(before).add(after);
    return [[before, after]];
  });
}

function distance(one: Frame, other: Frame): number {
  const a = cropOf(one, undefined);
  const b = cropOf(other, undefined);
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y) + Math.abs(a.x + a.w - b.x - b.w) + Math.abs(a.y + a.h - b.y - b.h);
}

function firstDifference(one: readonly number[], other: readonly number[]): number {
  return one.map((value, at) => value - other[at]!).find((difference) => difference !== 0) ?? 0;
}
