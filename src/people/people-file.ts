import { INPUT_LIMITS } from '../input-limits.ts';
import type { Point } from '../geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from './person.ts';
import { POINT_NAMES } from './points.ts';
import { readPeopleLine } from './people-line.ts';

/** Something wrong with one line of the people file. */
export interface PeopleFileProblem {
  /** 1-based. */
  readonly line: number;
  readonly message: string;
  /** A warning when the rest of the line is used. */
  readonly severity: 'error' | 'warning';
}

/** A people file as far as it could be read. */
export interface PeopleFile {
  /** By photo; of two lines for a photo the one that counts. */
  readonly photos: ReadonlyMap<string, PhotoPeople>;
  /** By photo, the text of the line that counts: written again as it is while nothing in it changes. */
  readonly lines: ReadonlyMap<string, string>;
  /** Lines that could not be read; writing keeps them. */
  readonly unreadLines: readonly string[];
  readonly problems: readonly PeopleFileProblem[];
}

export const EMPTY_PEOPLE_FILE: PeopleFile = { photos: new Map(), lines: new Map(), unreadLines: [], problems: [] };

/**
 * Reads a people file (one JSON object a line, any order). A bad line is a problem and never stops the others. Of two
 * lines for a photo one with somebody corrected by hand beats one without, else the last wins.
 */
export function parsePeopleFile(text: string, readLine: typeof readPeopleLine = readPeopleLine): PeopleFile {
  const photos = new Map<string, PhotoPeople>();
  const lines = new Map<string, string>();
  const unreadLines: string[] = [];
  const problems: PeopleFileProblem[] = [];
  const all = text.replace(/^\uFEFF/, '').split('\n');
  const { most } = INPUT_LIMITS.peopleFileLines;
  for (const [index, raw] of all.entries()) {
    const line = raw.trim();
    if (line === '') continue;
    if (index >= most) {
      unreadLines.push(line);
      continue;
    }
    const reading = readLine(line);
    if ('fault' in reading) {
      const message = `This line is not used: ${reading.fault}. Mend it, or delete it and measure again.`;
      problems.push({ line: index + 1, severity: 'error', message });
      unreadLines.push(line);
      continue;
    }
    if (reading.unknownPoints.length > 0) {
      const names = reading.unknownPoints
        .slice(0, 3)
        .map((name) => name.slice(0, 40))
        .join(', ');
      const message = `Points that I do not know are left out: ${names}. Names are those of COCO-WholeBody.`;
      problems.push({ line: index + 1, severity: 'warning', message });
    }
    const { photo } = reading;
    const earlier = photos.get(photo.photo);
    if (earlier && isByHand(earlier) && !isByHand(photo)) continue;
    photos.set(photo.photo, photo);
    lines.set(photo.photo, line);
  }
  return { photos, lines, unreadLines, problems: [...tooManyLines(all.length), ...shortened(problems)] };
}

/** A line break at the end begins no line. */
function tooManyLines(count: number): PeopleFileProblem[] {
  const { most } = INPUT_LIMITS.peopleFileLines;
  if (count <= most + 1) return [];
  const message = `The file goes on, but ${most} lines are the most that is read: what follows is not used. Split the session.`;
  return [{ line: most + 1, severity: 'error', message }];
}

/** A file that is broken all through is told once, not line by line. */
function shortened(problems: readonly PeopleFileProblem[]): readonly PeopleFileProblem[] {
  const { most } = INPUT_LIMITS.peopleProblems;
  const rest = problems.slice(most);
  if (rest.length === 0) return problems;
  const severity = rest.some((problem) => problem.severity === 'error') ? 'error' : 'warning';
  const message = `From here on ${rest.length} more lines are like this. Mend them, or delete the file and measure again.`;
  return [...problems.slice(0, most), { line: rest[0]!.line, severity, message }];
}

function isByHand({ people }: PhotoPeople): boolean {
  return people.some((person) => person.source === 'hand');
}

/** The file's text with some photos measured anew: sorted by photo, all other lines as they were. */
export function formatPeopleFile(file: PeopleFile, measured: Iterable<PhotoPeople> = []): string {
  const lines = new Map(file.lines);
  for (const photo of measured) lines.set(photo.photo, formatPeopleLine(photo));
  const sorted = [...lines].sort(([first], [second]) => (first < second ? -1 : first > second ? 1 : 0));
  const all = [...sorted.map(([, line]) => line), ...file.unreadLines];
  return all.map((line) => `${line}\n`).join('');
}

/** One line of the people file, without its line break; at most four decimals. */
export function formatPeopleLine(photo: PhotoPeople): string {
  return JSON.stringify({
    photo: photo.photo,
    size: [photo.size.width, photo.size.height],
    digest: photo.digest,
    people: photo.people.map(personFields),
    tilt: photo.tilt && { degrees: short(photo.tilt.degrees), confidence: short(photo.tilt.confidence) },
    horizon: photo.horizon && { y: short(photo.horizon.y), confidence: short(photo.horizon.confidence) },
    symmetry: photo.symmetry && { x: short(photo.symmetry.x), confidence: short(photo.symmetry.confidence) },
    by: photo.by,
  });
}

function personFields(person: Person): object {
  const points = POINT_NAMES.flatMap((name) => {
    const point = person.points[name];
    return point ? [[name, pointFields(point)] as const] : [];
  });
  return {
    id: person.id,
    source: person.source,
    box: person.box.map(short),
    points: Object.fromEntries(points),
    head_top: person.headTop && pointFields(person.headTop),
    chin: person.chin && pointFields(person.chin),
    outline: person.outline?.map(cornerFields),
    gaps: person.gaps?.map((gap) => gap.map(cornerFields)),
  };
}

function cornerFields({ x, y }: Point): number[] {
  return [short(x), short(y)];
}

function pointFields({ x, y, confidence }: MeasuredPoint): number[] {
  return [short(x), short(y), short(confidence)];
}

/** Four decimals, and no −0. */
function short(value: number): number {
  return Math.round(value * 10_000) / 10_000 + 0;
}
