import { INPUT_LIMITS } from '../input-limits.ts';
import type { Point, Size } from '../geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from './person.ts';
import type { PointName } from './points.ts';
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
  return {
    photo,
    size: readSize(line['size']),
    ...(digest !== undefined && { digest }),
    people: read,
    ...optional('tilt', line['tilt'], (value) => readPair(value, 'tilt', 'degrees', MOST_DEGREES)),
    ...optional('horizon', line['horizon'], (value) => readPair(value, 'horizon', 'y', FARTHEST)),
    ...optional('symmetry', line['symmetry'], (value) => readPair(value, 'symmetry', 'x', FARTHEST)),
    ...(typeof by === 'string' && { by }),
  };
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
  return {
    id: id as number,
    source,
    box: readBox(person['box'], name),
    points: readPoints(person['points'] ?? {}, name, unknownPoints),
    ...optional('headTop', person['head_top'], (point) => readPoint(point, `${name}: head_top`)),
    ...optional('chin', person['chin'], (point) => readPoint(point, `${name}: chin`)),
    ...optional('outline', person['outline'], (outline) => readOutline(outline, `${name}: outline`)),
    ...optional('gaps', person['gaps'], (gaps) => readGaps(gaps, `${name}: gaps`)),
  };
}

function readBox(value: unknown, name: string): Person['box'] {
  const numbers = numbersOf(value, 4);
  if (!numbers || numbers[2]! < LEAST_EXTENT || numbers[3]! < LEAST_EXTENT) {
    throw new Fault(`${name}: box must be [left, top, width, height] in fractions of the photo`);
  }
  return [numbers[0]!, numbers[1]!, numbers[2]!, numbers[3]!];
}

function readPoints(value: unknown, name: string, unknownPoints: Set<string>): Person['points'] {
  const points: Partial<Record<PointName, MeasuredPoint>> = {};
  for (const [point, place] of Object.entries(fieldsOf(value, `${name}: points`))) {
    if (isPointName(point)) points[point] = readPoint(place, `${name}: ${point}`);
    else unknownPoints.add(point);
  }
  return points;
}

function readPoint(value: unknown, name: string): MeasuredPoint {
  const numbers = numbersOf(value, 3);
  if (!numbers || numbers[2]! < 0 || numbers[2]! > 1) {
    throw new Fault(`${name} must be [x, y, confidence], in fractions of the photo, the confidence from 0 to 1`);
  }
  return { x: numbers[0]!, y: numbers[1]!, confidence: numbers[2]! };
}

function readOutline(value: unknown, name: string): Point[] {
  if (!Array.isArray(value)) throw new Fault(`${name} must be a list of [x, y]`);
  const { most } = INPUT_LIMITS.outlinePoints;
  if (value.length > most) throw new Fault(`${name} has ${value.length} points, and ${most} are the most that is read`);
  return value.map((corner) => {
    const numbers = numbersOf(corner, 2);
    if (!numbers) throw new Fault(`${name} must be a list of [x, y] in fractions of the photo`);
    return { x: numbers[0]!, y: numbers[1]! };
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

function optional<Key extends string, T>(key: Key, value: unknown, read: (value: unknown) => T): { [K in Key]?: T } {
  return value === undefined || value === null ? {} : ({ [key]: read(value) } as { [K in Key]?: T });
}

function fieldsOf(value: unknown, name: string): Fields {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Fields;
  throw new Fault(`${name} must be a map { … }`);
}

function numbersOf(value: unknown, count: number): number[] | undefined {
  if (!Array.isArray(value) || value.length !== count) return undefined;
  return value.every((item) => isNumber(item) && Math.abs(item) <= FARTHEST) ? (value as number[]) : undefined;
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}
