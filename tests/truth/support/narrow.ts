import { insideAt } from '../../../src/people/stretches.ts';
import { narrowPlaces, widePlaces } from '../../../src/people/narrow-places.ts';
import { profileHeights, profileOf, widthProfile, type Slice } from '../../../src/people/width-profile.ts';
import type { Pair } from './pairs.ts';

/** How much narrower a place is than its surroundings: as the rule asks, clearly so, and hardly so. */
const NARROWER = 0.12;
const CLEARLY = 0.2;
const HARDLY = 0.06;
/** Of the person's height. */
const WITHIN = 0.03;

/** What was said, how much of it is so, and of whom something was said that is not. */
export interface Shares {
  readonly said: number;
  readonly right: number;
  readonly wrong: readonly string[];
}

/**
 * Narrow places found in the measured outline, right where the truth is at least hardly narrower within 3 % of the
 * height: what the truth has as just not narrow enough is no fault.
 */
export function narrowFound(pairs: readonly Pair[]): Shares {
  return sharesOf(pairs, (pair) => {
    const there = narrowInTruth(pair, HARDLY);
    return narrowInOutline(pair, NARROWER).map((place) => isNear(place, there, pair));
  });
}

/** Clearly narrow places of the truth, right where the measured outline is at least hardly narrower within 3 %. */
export function narrowSeen(pairs: readonly Pair[]): Shares {
  return sharesOf(pairs, (pair) => {
    const ours = narrowInOutline(pair, HARDLY);
    return narrowInTruth(pair, CLEARLY).map((place) => isNear(place, ours, pair));
  });
}

/** Places that the rule calls widest, right where the truth is narrower where the rule says so. */
export function wideCalled(pairs: readonly Pair[]): Shares {
  return sharesOf(pairs, (pair) => {
    const { measuredFigure: measured, labelledFigure: labelled } = pair;
    const near = WITHIN * labelled.height;
    const truth = profileInTruth(pair);
    const around = (from: number, to: number): number[] =>
      truth.filter(({ y }) => y >= from - near && y <= to + near).map(({ width }) => width);
    return widePlaces(widthProfile(measured), measured.height, NARROWER).map(({ from, to, narrow }) => {
      const widest = Math.max(...around(from, to));
      return Math.min(...around(narrow, narrow)) <= (1 - HARDLY) * widest;
    });
  });
}

/** How far the width at each height is off, in percent of the person's height: the outline's part, with the same joints. */
export function widthErrors(pairs: readonly Pair[]): number[] {
  return pairs.flatMap(({ measuredFigure: measured, truth }) => {
    const { lines, height, outline, gaps } = measured;
    if (!outline) return [];
    const heights = profileHeights(lines, height);
    const theirs = new Map(profileOf(measured, truth(heights)).map(({ y, width }) => [y, width]));
    return profileOf(measured, insideAt(outline, heights, gaps)).flatMap(({ y, width }) => {
      const width_ = theirs.get(y);
      return width_ === undefined ? [] : [(100 * Math.abs(width - width_)) / height];
    });
  });
}

function narrowInOutline({ measuredFigure: measured }: Pair, narrower: number): number[] {
  return narrowPlaces(widthProfile(measured), measured.height, narrower);
}

function narrowInTruth(pair: Pair, narrower: number): number[] {
  return narrowPlaces(profileInTruth(pair), pair.labelledFigure.height, narrower);
}

function profileInTruth({ labelledFigure: labelled, truth }: Pair): Slice[] {
  return profileOf(labelled, truth(profileHeights(labelled.lines, labelled.height)));
}

function isNear(place: number, others: readonly number[], { labelledFigure: labelled }: Pair): boolean {
  return others.some((other) => Math.abs(other - place) <= WITHIN * labelled.height);
}

function sharesOf(pairs: readonly Pair[], judge: (pair: Pair) => readonly boolean[]): Shares {
  const judged = pairs.flatMap((pair) => judge(pair).map((isRight) => ({ isRight, name: pair.name })));
  const wrong = judged.filter(({ isRight }) => !isRight).map(({ name }) => name);
  return { said: judged.length, right: judged.length - wrong.length, wrong };
}
