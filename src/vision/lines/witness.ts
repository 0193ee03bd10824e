import { DEGREE } from './fan-shape.ts';
import type { Fan } from './fan.ts';
import type { Horizon } from './horizon.ts';
import { ramp } from './ramp.ts';

/** What one kind of line says about how the picture leans. */
export interface Witness {
  /** Radians, clockwise as seen. */
  readonly lean: number;
  /** One standard deviation of `lean`, if the witness is right at all. */
  readonly error: number;
  /** The chance that it is, 0 to 1. */
  readonly trust: number;
}

/** An answer with this error is useless: its confidence is 0. */
const USELESS = 0.8 * DEGREE;
/** A witness that knows no better than this cannot bear out another. */
const NO_SUPPORT = 1.2 * DEGREE;
/** Fans that chance would make (as logarithms): so many tell nothing, so few are sure. */
const BY_CHANCE = -0.25;
const NOT_BY_CHANCE = -2.25;
/** A long line is no better than one of this length (of the longer edge). */
const LONG_ENOUGH = 0.3;
/** The sea is level to this, with a lens that bends a little. */
const HORIZON_ERROR = 0.1 * DEGREE;
/** Lying lines run away from the camera: where their horizon is, as a share of the longer edge, is hardly known. */
const UNKNOWN_HORIZON = 0.25;
const LYING_ERROR = 0.5 * DEGREE;
/** Lying lines alone never make an answer. */
const LYING_TRUST = 0.6;

export function confidenceOf({ error, trust }: Witness): number {
  return trust * Math.max(0, 1 - error / USELESS);
}

/** Posts, walls, door frames. */
export function uprightWitness({ lean, leanError, strands, rival, chance }: Fan): Witness {
  const length = strands.reduce((sum, strand) => sum + Math.min(LONG_ENOUGH, strand.length), 0);
  const trust = ramp(chance, BY_CHANCE, NOT_BY_CHANCE);
  return { lean, error: leanError, trust: trust * ramp(length, 0.05, 0.4) * clearOf(rival) };
}

export function horizonWitness({ lean, error, trust }: Horizon): Witness {
  return { lean, error: Math.hypot(error, HORIZON_ERROR), trust };
}

/** Rails, boards, skirtings: level only where they stand square to the camera, so they only bear out others. */
export function lyingWitness({ lean, leanError, convergence, convergenceError, strands, rival }: Fan): Witness {
  const running = UNKNOWN_HORIZON * Math.hypot(convergence, convergenceError);
  const trust = LYING_TRUST * ramp(strands.length, 1, 5) * clearOf(rival);
  return { lean, error: Math.hypot(leanError, LYING_ERROR, running), trust };
}

function clearOf(rival: number): number {
  return 0.2 + 0.8 * ramp(rival, 0.95, 0.55);
}

/**
 * What all witnesses say together. The best of those that can stand alone leads; who agrees bears it out, who stands
 * alone and contradicts casts doubt on it.
 */
export function together(alone: readonly Witness[], supporting: readonly Witness[]): Witness | undefined {
  const [first, ...others] = [...alone].sort((one, other) => confidenceOf(other) - confidenceOf(one));
  if (first === undefined) return undefined;
  let lead = first;
  for (const other of [...others, ...supporting]) {
    const apart = Math.abs(other.lean - lead.lean);
    const error = Math.hypot(other.error, lead.error);
    if (apart < Math.max(2 * error, 0.4 * DEGREE)) lead = borneOut(lead, other);
    else if (others.includes(other)) lead = { ...lead, trust: lead.trust * (1 - contradiction(lead, other)) };
  }
  return lead;
}

function borneOut(lead: Witness, other: Witness): Witness {
  const support = other.trust * Math.max(0, 1 - other.error / NO_SUPPORT);
  const own = 1 / lead.error ** 2;
  const added = support / other.error ** 2;
  return {
    lean: (own * lead.lean + added * other.lean) / (own + added),
    error: 1 / Math.sqrt(own + added),
    trust: 1 - (1 - lead.trust) * (1 - support),
  };
}

/** The share of trust that is lost. A much weaker witness loses nearly none. */
function contradiction(lead: Witness, other: Witness): number {
  const least = 0.01;
  return 0.9 * Math.min(1, confidenceOf(other) / Math.max(least, confidenceOf(lead))) ** 2;
}
