import type { HalfSpace } from '../../geometry/half-space.ts';
import type { EdgeName } from '../../geometry/shapes.ts';
import { firmnessOf } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError, type PlaceKind } from '../../people/measuring-error.ts';
import { past, pixels } from '../limits.ts';
import type { Limit } from '../rule.ts';
import { jointKind } from './advice.ts';

const NO_ARGUMENTS = {};

/** A limit of this rule for one edge and joint; `middle` is where the joint lies across the edge, in pixels. */
export function limitOf(
  message: 'cut' | 'bent',
  figure: Figure,
  edge: EdgeName,
  joint: string,
  middle: number,
  length: number,
  confidence: number,
  escapes: HalfSpace[],
  bound: number | undefined,
): Limit {
  return {
    message,
    arguments: NO_ARGUMENTS,
    escapes,
    deeper: measuringError(figure, kindOf(joint), confidence),
    edge,
    person: figure.id,
    joint,
    possible: firmnessOf(confidence) !== 'firm',
    measure: { of: past(edge, middle), per: pixels(length) },
    bound,
  };
}

const KINDS = new Map<string, PlaceKind>();

/** Kept by name: taking a name apart costs as much as the rest of a limit. */
function kindOf(joint: string): PlaceKind {
  let kind = KINDS.get(joint);
  if (!kind) {
    const own = jointKind(joint);
    kind = own === 'neck' ? 'shoulder' : (own as PlaceKind);
    KINDS.set(joint, kind);
  }
  return kind;
}
