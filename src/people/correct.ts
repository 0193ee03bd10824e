import { boxAround } from '../geometry/points.ts';
import type { Point } from '../geometry/shapes.ts';
import type { MeasuredPoint, Person } from './person.ts';
import { isPointName, POINT_NAMES, type PointName } from './points.ts';
import { foundPlaces } from './places.ts';

/** Every place of a body that can be set by hand. */
export type Place = PointName | 'head_top' | 'chin';

export function isPlace(name: string): name is Place {
  return name === 'head_top' || name === 'chin' || isPointName(name);
}

export const PLACES: readonly Place[] = ['head_top', 'chin', ...POINT_NAMES];

/** What somebody says of the people in one photo. Places are fractions of the oriented photo, not turned. */
export type Correction =
  | { readonly kind: 'place'; readonly person: number; readonly place: Place; readonly at: Point }
  /** The place cannot be seen. */
  | { readonly kind: 'unplace'; readonly person: number; readonly place: Place }
  | { readonly kind: 'add'; readonly places: Readonly<Partial<Record<Place, Point>>> }
  | { readonly kind: 'remove'; readonly person: number };

/** So many places make a person. */
export const FEWEST_PLACES = 3;
/** Around the places of a person whose box nobody measured, as a share of their extent (common practice, no source). */
const AROUND = 0.08;
/** Of a photo's side; a box has some width and height. */
const LEAST_EXTENT = 0.02;

/**
 * The people after a correction: whoever was corrected or added is `hand`, with full confidence in what was placed; all
 * others are the very same. Undefined when the correction is about a person who is not there, or names too few places.
 */
export function correctPeople(people: readonly Person[], correction: Correction): readonly Person[] | undefined {
  if (correction.kind === 'add') {
    const added = personOf(correction.places, Math.max(0, ...people.map(({ id }) => id)) + 1);
    return added && [...people, added];
  }
  if (!people.some(({ id }) => id === correction.person)) return undefined;
  if (correction.kind === 'remove') return people.filter(({ id }) => id !== correction.person);
  const { place } = correction;
  const at = correction.kind === 'place' ? correction.at : undefined;
  return people.map((person) => (person.id === correction.person ? withPlace(person, place, at) : person));
}

/** Where a person's place is; undefined when it is not known. */
export function placeOf(person: Person, place: Place): MeasuredPoint | undefined {
  if (place === 'head_top') return person.headTop;
  return place === 'chin' ? person.chin : person.points[place];
}

function withPlace(person: Person, place: Place, at: Point | undefined): Person {
  const { headTop, chin, ...others } = person;
  const places = new Map<Place, MeasuredPoint>(foundPlaces(person.points));
  if (headTop) places.set('head_top', headTop);
  if (chin) places.set('chin', chin);
  if (at) places.set(place, { x: at.x, y: at.y, confidence: 1 });
  else places.delete(place);
  return { ...others, source: 'hand', ...fieldsOf(places), box: at ? boxWith(person.box, at) : person.box };
}

function personOf(given: Readonly<Partial<Record<Place, Point>>>, id: number): Person | undefined {
  const places = new Map<Place, MeasuredPoint>();
  for (const place of PLACES) {
    const at = given[place];
    if (at) places.set(place, { x: at.x, y: at.y, confidence: 1 });
  }
  if (places.size < FEWEST_PLACES) return undefined;
  const { left, top, right, bottom } = boxAround([...places.values()]);
  const [across, down] = [AROUND * (right - left), AROUND * (bottom - top)];
  const start = { x: inPhoto(left - across), y: inPhoto(top) };
  const end = { x: inPhoto(right + across), y: inPhoto(bottom + down) };
  const width = Math.max(LEAST_EXTENT, end.x - start.x);
  const height = Math.max(LEAST_EXTENT, end.y - start.y);
  return { id, source: 'hand', box: [start.x, start.y, width, height], ...fieldsOf(places) };
}

function fieldsOf(places: ReadonlyMap<Place, MeasuredPoint>): Pick<Person, 'points' | 'headTop' | 'chin'> {
  const [headTop, chin] = [places.get('head_top'), places.get('chin')];
  const points: Partial<Record<PointName, MeasuredPoint>> = {};
  for (const [place, at] of places) if (place !== 'head_top' && place !== 'chin') points[place] = at;
  return { points, ...(headTop && { headTop }), ...(chin && { chin }) };
}

/** The box, larger where what was placed lies in the photo but not in it. */
function boxWith([left, top, width, height]: Person['box'], at: Point): Person['box'] {
  const [x, y] = [inPhoto(at.x), inPhoto(at.y)];
  const [fromX, fromY] = [Math.min(left, x), Math.min(top, y)];
  return [fromX, fromY, Math.max(left + width, x) - fromX, Math.max(top + height, y) - fromY];
}

function inPhoto(value: number): number {
  return Math.min(1, Math.max(0, value));
}
