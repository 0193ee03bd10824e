import type { Point, Rectangle } from '../geometry/shapes.ts';
import { isPlace, type Correction } from '../people/correct.ts';
import { MOST_DEGREES } from '../geometry/level.ts';
import { DIRECTIONS, LONGEST_REASON, SWITCHES, type Direction, type FromMat, type Switch } from './messages.ts';

type Fields = Readonly<Record<string, unknown>>;

/** Fractions of a photo; further out there is nothing. */
const FARTHEST = 10;
/** Characters; no rule and joint have more. */
const LONGEST_KEY = 80;
/** Pixels; no screen has more. */
const LONGEST_EDGE = 8000;

/** A message from the webview, if it is one: whoever may run there can name no file and write no other key. */
export function readFromMat(message: unknown): FromMat | undefined {
  const fields = fieldsOf(message);
  if (!fields) return undefined;
  const { kind, to, revision } = fields;
  switch (kind) {
    case 'ready':
    case 'undo':
    case 'redo':
    case 'save':
    case 'take-back':
    case 'measure':
      return { kind };
    case 'go':
      return DIRECTIONS.includes(to as Direction) ? { kind, to: to as Direction } : undefined;
    case 'cut-for': {
      const { output } = fields;
      return output === undefined || isOutputName(output) ? { kind, output } : undefined;
    }
    case 'switches': {
      const on = fields['on'];
      const areKnown = Array.isArray(on) && on.every((each) => SWITCHES.includes(each as Switch));
      return areKnown ? { kind, on: SWITCHES.filter((each) => on.includes(each)) } : undefined;
    }
    case 'crop':
    case 'look':
    case 'correct':
    case 'allow':
    case 'approve':
      return isCount(revision) ? readAboutFrame(kind, revision, fields) : undefined;
    default:
      return undefined;
  }
}

type AboutFrame = 'crop' | 'look' | 'correct' | 'allow' | 'approve';

function readAboutFrame(kind: AboutFrame, revision: number, fields: Fields): FromMat | undefined {
  if (kind === 'approve') {
    const { isFinal } = fields;
    return typeof isFinal === 'boolean' ? { kind, revision, isFinal } : undefined;
  }
  if (kind === 'allow') {
    const { key, reason } = fields;
    return isKey(key) && isReason(reason) ? { kind, revision, key, reason: reason.trim() } : undefined;
  }
  if (kind === 'crop') {
    const crop = readRectangle(fields['crop']);
    const { degrees } = fields;
    return crop && isWithin(degrees, MOST_DEGREES) ? { kind, revision, crop, degrees } : undefined;
  }
  if (kind === 'look') {
    const region = readRectangle(fields['region']);
    const { longEdge } = fields;
    const isInside = region && region.x >= 0 && region.y >= 0 && region.x + region.w <= 1.0001 && region.y + region.h <= 1.0001; // prettier-ignore
    const isEdge = isCount(longEdge) && longEdge > 0 && longEdge <= LONGEST_EDGE;
    return isInside && isEdge ? { kind, revision, region, longEdge } : undefined;
  }
  const correction = readCorrection(fieldsOf(fields['correction']));
  return correction && { kind, revision, correction };
}

function readCorrection(fields: Fields | undefined): Correction | undefined {
  if (!fields) return undefined;
  const { kind, person, place } = fields;
  if (kind === 'add') {
    const given = Object.entries(fieldsOf(fields['places']) ?? {});
    const places = given.map(([name, at]) => [name, readPoint(at)] as const);
    if (!places.every(([name, at]) => isPlace(name) && at !== undefined)) return undefined;
    return { kind, places: Object.fromEntries(places) };
  }
  if (!isCount(person)) return undefined;
  if (kind === 'remove') return { kind, person };
  if (typeof place !== 'string' || !isPlace(place)) return undefined;
  if (kind === 'unplace') return { kind, person, place };
  const at = readPoint(fields['at']);
  return kind === 'place' && at ? { kind, person, place, at } : undefined;
}

function readRectangle(value: unknown): Rectangle | undefined {
  const fields = fieldsOf(value);
  if (!fields) return undefined;
  const { x, y, w, h } = fields;
  const areNumbers = isWithin(x, FARTHEST) && isWithin(y, FARTHEST) && isWithin(w, FARTHEST) && isWithin(h, FARTHEST);
  return areNumbers && w > 0 && h > 0 ? { x, y, w, h } : undefined;
}

function readPoint(value: unknown): Point | undefined {
  const fields = fieldsOf(value);
  if (!fields) return undefined;
  const { x, y } = fields;
  return isWithin(x, FARTHEST) && isWithin(y, FARTHEST) ? { x, y } : undefined;
}

function fieldsOf(value: unknown): Fields | undefined {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : undefined;
}

/** `rule` or `rule/joint`; whether the frame has such a finding is for the editor to say. */
function isKey(value: unknown): value is string {
  return typeof value === 'string' && value.length <= LONGEST_KEY && /^[a-z-]+(\/[a-z_0-9]+)?$/.test(value);
}

/** Whether the session has such an output is for the editor to say. */
function isOutputName(value: unknown): value is string {
  return typeof value === 'string' && value.length <= LONGEST_KEY;
}

/** One line that says something. */
function isReason(value: unknown): value is string {
  return typeof value === 'string' && value.length <= LONGEST_REASON && value.trim() !== '' && !/\p{Cc}/u.test(value);
}

function isCount(value: unknown): value is number {
  return Number.isSafeInteger(value) && (value as number) >= 0;
}

function isWithin(value: unknown, most: number): value is number {
  return typeof value === 'number' && Number.isFinite(value) && Math.abs(value) <= most;
}
