import type { Slice } from './width-profile.ts';

/** Where a body or its clothing is widest, with the nearest place where it is clearly narrower. */
export interface WidePlace {
  /** Heights between which it is as good as at its widest, in pixels of the turned picture. */
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
  /** The nearest height at which it has narrowed. */
  readonly narrow: number;
}

/** How far up and down counts as near, as a share of the person's height (common practice, no source). */
const NEAR = 0.12;
/** As good as the widest is what has lost no more than this. */
const STILL_WIDE = 0.05;

/** The widest places of a profile near which it narrows by at least a share. */
export function widePlaces(profile: readonly Slice[], height: number, narrower: number): WidePlace[] {
  return comparable(profile).flatMap((slices) => {
    const widths = smoothed(slices);
    const reach = reachIn(slices, height);
    return extremes(widths, reach, (a, b) => a > b).flatMap((peak): WidePlace[] => {
      const most = widths[peak]!;
      const narrow = nearest(widths, peak, reach, (width) => width <= (1 - narrower) * most);
      if (narrow === undefined) return [];
      const [from, to] = around(widths, peak, reach, (width) => width >= (1 - STILL_WIDE) * most);
      const { left, right } = slices[peak]!;
      return [{ from: slices[from]!.y, to: slices[to]!.y, left, right, narrow: slices[narrow]!.y }];
    });
  });
}

/** The heights at which a profile is narrowest, with a place near that is wider by at least a share: waist, under a hem. */
export function narrowPlaces(profile: readonly Slice[], height: number, narrower: number): number[] {
  return comparable(profile).flatMap((slices) => {
    const widths = smoothed(slices);
    const reach = reachIn(slices, height);
    return extremes(widths, reach, (a, b) => a < b)
      .filter((dip) => nearest(widths, dip, reach, (width) => (1 - narrower) * width >= widths[dip]!) !== undefined)
      .filter((dip) => widens(widths, dip, reach, -1, narrower / 3) && widens(widths, dip, reach, 1, narrower / 3))
      .map((dip) => slices[dip]!.y);
  });
}

/** Whether it gets wider again that way, by a share: what only goes on getting narrower has no narrow place. */
function widens(widths: readonly number[], dip: number, reach: number, way: 1 | -1, share: number): boolean {
  for (let away = 1; away <= reach; away++) {
    const width = widths[dip + way * away];
    if (width !== undefined && (1 - share) * width >= widths[dip]!) return true;
  }
  return false;
}

/** The stretches of a profile along which as many arms lie at the body: across their ends the width steps. */
function comparable(profile: readonly Slice[]): Slice[][] {
  const runs: Slice[][] = [];
  let before: Slice | undefined;
  for (const slice of profile) {
    if (before && before.arms === slice.arms) runs.at(-1)!.push(slice);
    else runs.push([slice]);
    before = slice;
  }
  return runs.filter(([first]) => first!.arms !== undefined);
}

/** The median of each width and its two neighbours: what only one slice says does not count, and a hem stays sharp. */
function smoothed(profile: readonly Slice[]): number[] {
  return profile.map(({ width }, index) => {
    const before = profile[index - 1]?.width ?? width;
    const after = profile[index + 1]?.width ?? width;
    return Math.max(Math.min(before, width), Math.min(Math.max(before, width), after));
  });
}

function reachIn(profile: readonly Slice[], height: number): number {
  const [first, second] = profile;
  return first && second ? Math.max(1, Math.round((NEAR * height) / (second.y - first.y))) : 1;
}

/** Places that no other within reach beats, the first of equals; not the ends, beyond which nothing is known. */
function extremes(widths: readonly number[], reach: number, beats: (a: number, b: number) => boolean): number[] {
  const found: number[] = [];
  for (let at = 1; at < widths.length - 1; at++) {
    let isBest = true;
    for (let other = Math.max(0, at - reach); other <= at + reach && other < widths.length && isBest; other++) {
      if (other === at) continue;
      isBest = !beats(widths[other]!, widths[at]!) && !(other < at && widths[other] === widths[at]);
    }
    if (isBest) found.push(at);
  }
  return found;
}

function nearest(
  widths: readonly number[],
  at: number,
  reach: number,
  isWanted: (width: number) => boolean,
): number | undefined {
  for (let away = 1; away <= reach; away++) {
    // Upwards first: coming in is easier than opening.
    for (const other of [at - away, at + away]) {
      if (other >= 0 && other < widths.length && isWanted(widths[other]!)) return other;
    }
  }
  return undefined;
}

function around(
  widths: readonly number[],
  at: number,
  reach: number,
  isWithin: (width: number) => boolean,
): readonly [number, number] {
  let from = at;
  let to = at;
  while (from > 0 && at - from < reach && isWithin(widths[from - 1]!)) from--;
  while (to < widths.length - 1 && to - at < reach && isWithin(widths[to + 1]!)) to++;
  return [from, to];
}
