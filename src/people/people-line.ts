import { INPUT_LIMITS } from '../input-limits.ts';
import type { Point, Size } from '../geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from './person.ts';
import { noPlaces } from './places.ts';
import { isPointName } from './points.ts';

/** What one line of the people file says, or why it cannot be used. */
export type LineReading =
  { readonly photo: PhotoPeople; readonly unknownPoints: readonly string[] } | { readonly fault: string };

/** A line that breaks the format; the message says what is wrong and what would be right. */
class Fault extends Error {}

type Fields = Readonly<Record<string, unknown>>;

/** Places beyond the frame are legal, but not this far out: a fraction, not a number of pixels. */
const FARTHEST = 10;

/** The people file's own last decimal: a person has some width and height. */
const LEAST_EXTENT = 0.0001;

/** A photo leans, it does not stand on its head. */
const MOST_DEGREES = 90;

/** Reads one line of the people file (JSON). Never throws. */
export function readPeopleLine(text: string): LineReading {
  const { most } = INPUT_LIMITS.peopleLineCharacters;
  if (text.length > most) return { fault: `it has ${text.length} characters, and ${most} are the most that is read` };
  try {
    const unknownPoints = new Set<string>();
    const photo = readPhoto(fieldsOf(JSON.parse(text), 'the line'), unknownPoints);
    return { photo, unknownPoints: [...unknownPoints] };
  } catch (error) {
    if (error instanceof Fault) return { fault: error.message };
    return { fault: 'it is not JSON: each line is one whole { … }' };
  }
}

function readPhoto(line: Fields, unknownPoints: Set<string>): PhotoPeople {
  const { photo, people, digest, by } = line;
  if (typeof photo !== 'string' || photo === '')
    throw new Fault('photo must be the name of a photo, such as "0142.jpg"');
  if (!Array.isArray(people)) throw new Fault('people must be a list; [] when nobody is in the photo');
  const { most } = INPUT_LIMITS.peopleInPhoto;
  if (people.length > most) throw new Fault(`it has ${people.length} people, and ${most} are the most that is read`);
  const read = people.map((person, index) => readPerson(person, `person ${index + 1}`, unknownPoints));
  const twice = read.find((person, index) => read.findIndex((other) => other.id === person.id) !== index);
  if (twice) throw new Fault(`two people have the id ${twice.id}; every id stands once in a photo`);
  if (digest !== undefined && typeof digest !== 'string') throw new Fault('digest must be text, "sha256:…"');
  const size = readSize(line['size']);
  const measured: Written<PhotoPeople> =
    digest === undefined ? { photo, size, people: read } : { photo, size, digest, people: read };
  const { tilt, horizon, symmetry } = line;
  if (isThere(tilt)) measured.tilt = readPair(tilt, 'tilt', 'degrees', MOST_DEGREES);
  if (isThere(horizon)) measured.horizon = readPair(horizon, 'horizon', 'y', FARTHEST);
  if (isThere(symmetry)) measured.symmetry = readPair(symmetry, 'symmetry', 'x', FARTHEST);
  if (typeof by === 'string') measured.by = by;
  return measured;
}

/** What is being put together. */
type Written<T> = { -readonly [Key in keyof T]: T[Key] };

function isThere(value: unknown): boolean {
  return value !== undefined && value !== null;
}

function readSize(value: unknown): Size {
  const [width, height] = Array.isArray(value) && value.length === 2 ? (value as unknown[]) : [];
  const isSide = (side: unknown): side is number => Number.isInteger(side) && (side as number) > 0;
  if (!isSide(width) || !isSide(height)) {
    throw new Fault('size must be [width, height] in whole pixels, such as [4000, 6000]');
  }
  const { most } = INPUT_LIMITS.photoPixels;
  if (width * height > most) throw new Fault(`size is more than ${most / 1_000_000} million pixels`);
  return { width, height };
}

function readPerson(value: unknown, name: string, unknownPoints: Set<string>): Person {
  const person = fieldsOf(value, name);
  const { id, source = 'model' } = person;
  if (!Number.isSafeInteger(id) || (id as number) < 1) throw new Fault(`${name}: id must be a whole number from 1`);
  if (source !== 'model' && source !== 'hand') throw new Fault(`${name}: source must be "model" or "hand"`);
  const read: Written<Person> = {
    id: id as number,
    source,
    box: readBox(person['box'], name),
    points: readPoints(person['points'] ?? {}, name, unknownPoints),
  };
  const { head_top: headTop, chin, outline, gaps } = person;
  if (isThere(headTop)) read.headTop = readPoint(headTop, name, 'head_top');
  if (isThere(chin)) read.chin = readPoint(chin, name, 'chin');
  if (isThere(outline)) read.outline = readOutline(outline, `${name}: outline`);
  if (isThere(gaps)) read.gaps = readGaps(gaps, `${name}: gaps`);
  return read;
}

function readBox(value: unknown, name: string): Person['box'] {
  if (!areNumbers(value, 4) || value[2]! < LEAST_EXTENT || value[3]! < LEAST_EXTENT) {
    throw new Fault(`${name}: box must be [left, top, width, height] in fractions of the photo`);
  }
  return [value[0]!, value[1]!, value[2]!, value[3]!];
}

function readPoints(value: unknown, name: string, unknownPoints: Set<string>): Person['points'] {
  const written = fieldsOf(value, `${name}: points`);
  const points = noPlaces();
  for (const point in written) {
    if (isPointName(point)) points[point] = readPoint(written[point], name, point);
    else unknownPoints.add(point);
  }
  return points;
}

function readPoint(value: unknown, name: string, point: string): MeasuredPoint {
  if (!areNumbers(value, 3) || value[2]! < 0 || value[2]! > 1) {
    throw new Fault(
      `${name}: ${point} must be [x, y, confidence], in fractions of the photo, the confidence from 0 to 1`,
    );
  }
  return { x: value[0]!, y: value[1]!, confidence: value[2]! };
}

function readOutline(value: unknown, name: string): Point[] {
  if (!Array.isArray(value)) throw new Fault(`${name} must be a list of [x, y]`);
  const { most } = INPUT_LIMITS.outlinePoints;
  if (value.length > most) throw new Fault(`${name} has ${value.length} points, and ${most} are the most that is read`);
  return value.map((corner) => {
    if (!areNumbers(corner, 2)) throw new Fault(`${name} must be a list of [x, y] in fractions of the photo`);
    return { x: corner[0]!, y: corner[1]! };
  });
}

function readGaps(value: unknown, name: string): Point[][] {
  if (!Array.isArray(value)) throw new Fault(`${name} must be a list of outlines`);
  const { most } = INPUT_LIMITS.outlineGaps;
  if (value.length > most) throw new Fault(`${name}: there are ${value.length}, and ${most} are the most that is read`);
  return value.map((gap, index) => readOutline(gap, `${name}, ${index + 1}`));
}

function readPair<Key extends string>(
  value: unknown,
  name: string,
  key: Key,
  most: number,
): Record<Key | 'confidence', number> {
  const fields = fieldsOf(value, name);
  const first = fields[key];
  const confidence = fields['confidence'] ?? 0;
  const isRead = isNumber(first) && Math.abs(first) <= most && isNumber(confidence);
  if (!isRead || confidence < 0 || confidence > 1) {
    throw new Fault(`${name} must be { ${key}, confidence }, from −${most} to ${most}, the confidence from 0 to 1`);
  }
  return { [key]: first, confidence } as Record<Key | 'confidence', number>;
}

function fieldsOf(value: unknown, name: string): Fields {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Fields;
  throw new Fault(`${name} must be a map { … }`);
}

function areNumbers(value: unknown, count: number): value is readonly number[] {
  if (!Array.isArray(value) || value.length !== count) return false;
  // Counted out: an iterator takes longer than what is done with its numbers.
  for (let index = 0; index < count; index++) {
    const item: unknown = value[index];
    if (!isNumber(item) || Math.abs(item) > FARTHEST) return false;
  }
  return true;
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}
