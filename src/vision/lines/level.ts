import type { Person, PhotoPeople } from '../../people/person.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { DEGREE } from './fan-shape.ts';
import { strongestFan } from './fan-vote.ts';
import { findHorizon } from './horizon.ts';
import { findLines } from './leaning-line.ts';
import { coverOfPeople } from './people-cover.ts';
import { halved, halvedCover, lightnessOf } from './plane.ts';
import { confidenceOf, horizonWitness, lyingWitness, together, uprightWitness } from './witness.ts';

/** Pixels along the longer edge: enough for a tenth of a degree, and quick. */
const LONG_EDGE = 800;
/** A line in a smaller picture is too short to tell anything. */
const LEAST_EDGE = 100;
/** An answer below this says nothing to anybody. */
const LEAST_CONFIDENCE = 0.1;
/** The horizon of a picture that leans otherwise is something else. */
const SAME = 0.6 * DEGREE;

/**
 * How a photo leans and how high its horizon is, from its lines outside people: posts, walls and the line between sea
 * or land and sky. Each part is left out when nothing tells it. A tilt whose horizon is left out, or under 0.5, comes
 * from uprights.
 * @param people places as fractions of the picture
 */
export function findLevel(picture: Pyramid, people: readonly Person[]): Pick<PhotoPeople, 'tilt' | 'horizon'> {
  if (Math.min(picture.width, picture.height) < LEAST_EDGE) return {};
  const plane = lightnessOf(picture, LONG_EDGE);
  const cover = coverOfPeople(people, plane);
  const { upright, lying } = findLines(plane, cover);
  const [uprights, level] = [strongestFan(upright), strongestFan(lying)];
  // A horizon far away is soft: half the size shows it better.
  const horizon = findHorizon(halved(plane), halvedCover(cover), people);
  const alone = [...(uprights ? [uprightWitness(uprights)] : []), ...(horizon ? [horizonWitness(horizon)] : [])];
  const answer = together(alone, level ? [lyingWitness(level)] : []);
  const confidence = answer ? round(confidenceOf(answer), 2) : 0;
  if (answer === undefined || confidence < LEAST_CONFIDENCE) return {};
  const isSame = horizon !== undefined && Math.abs(horizon.lean - answer.lean) < SAME;
  return {
    tilt: { degrees: round(-answer.lean / DEGREE, 2) + 0, confidence },
    ...(isSame && {
      horizon: { y: round(horizon.y, 4), confidence: round(Math.min(horizon.trust, confidence), 2) },
    }),
  };
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
