import type { Allowance, Crop, Frame, Located, Output, TextRange } from './manifest.ts';
import type { ReadItem, ReadMap, ReadValue } from './read-value.ts';
import { entry } from './read-value.ts';
import type { Reader } from './read.ts';
import type { RuleCatalogue } from './schema-kinds.ts';
import { nearestWord } from './spelling.ts';

/** What frames are checked against: ids of rules and outputs. */
export interface KnownIds {
  readonly rules: ReadonlySet<string>;
  readonly outputs: ReadonlyMap<string, Output>;
}

export function knownIds(rules: RuleCatalogue, outputs: ReadonlyMap<string, Output>): KnownIds {
  return { rules: new Set(rules.map(({ id }) => id)), outputs };
}

/** Makes the frames of the entries that have a photo, and numbers those of the same photo. */
export function buildFrames(items: readonly ReadItem[], known: KnownIds, reader: Reader): Frame[] {
  const occurrences = new Map<string, number>();
  const frames: Frame[] = [];
  for (const item of items) {
    const map = item.value as ReadMap;
    const photo = entry<string>(map, 'photo');
    if (!photo) continue;
    const occurrence = (occurrences.get(photo.value) ?? 0) + 1;
    occurrences.set(photo.value, occurrence);
    frames.push(buildFrame(item, photo, occurrence, known, reader));
  }
  return frames;
}

/** The frame of one entry. */
export function buildFrame(
  item: ReadItem,
  photo: Located<string>,
  occurrence: number,
  known: KnownIds,
  reader: Reader,
): Frame {
  const map = item.value as ReadMap;
  const crop = buildCrop(entry<ReadMap>(map, 'crop'));
  const unread = crop === 'incomplete' ? new Map(map.unread).set('crop', map.entries.get('crop')!.range) : map.unread;
  return {
    index: item.index,
    range: item.range,
    photo,
    occurrence,
    name: occurrence === 1 ? photo.value : `${photo.value}#${occurrence}`,
    ...(crop && crop !== 'incomplete' && { crop }),
    ...simple(map),
    ...subjects(map),
    allow: buildAllow(entry<ReadMap>(map, 'allow'), known, reader, item.index),
    deliver: buildDeliver(entry<ReadMap>(map, 'deliver'), known, reader, item.index),
    unread,
  };
}

type Simple = 'straighten' | 'aspect' | 'length' | 'compose' | 'note' | 'final';

const SIMPLE: readonly Simple[] = ['straighten', 'aspect', 'length', 'compose', 'note', 'final'];

function simple({ entries }: ReadMap): Pick<Frame, Simple> {
  const said: Record<string, Located<ReadValue>> = {};
  for (const key of SIMPLE) {
    const value = entries.get(key);
    if (value) said[key] = value;
  }
  return said;
}

function subjects(map: ReadMap): Pick<Frame, 'subjects'> {
  const list = entry<{ readonly items: readonly ReadItem[] }>(map, 'subjects');
  if (!list || list.value.items.length === 0) return {};
  return { subjects: { ...list, value: list.value.items.map((item) => item.value as number) } };
}

/** A crop of which a number is missing or out of bounds is none at all. */
function buildCrop(read: Located<ReadMap> | undefined): Located<Crop> | 'incomplete' | undefined {
  if (!read) return undefined;
  const x = entry<number>(read.value, 'x');
  const y = entry<number>(read.value, 'y');
  const w = entry<number>(read.value, 'w');
  const h = entry<number>(read.value, 'h');
  if (!x || !y || !w || !h) return 'incomplete';
  return { ...read, value: { x: x.value, y: y.value, w: w.value, h: h.value, members: { x, y, w, h } } };
}

/** Most frames allow and deliver nothing of their own: thousands of empty maps would be kept for them. */
const NONE: ReadonlyMap<string, never> = new Map<string, never>();

function buildAllow(
  read: Located<ReadMap> | undefined,
  known: KnownIds,
  reader: Reader,
  frame: number,
): ReadonlyMap<string, Allowance> {
  if (!read) return NONE;
  const allowances = new Map<string, Allowance>();
  for (const [key, reason] of read.value.entries as Iterable<[string, Located<string>]>) {
    const [rule, joint] = key.split('/');
    allowances.set(key, { ...reason, rule: rule!, ...(joint !== undefined && { joint }) });
    if (!known.rules.has(rule!)) reportUnknown(reader, frame, 'rule', rule!, known.rules, reason.key);
  }
  return allowances;
}

function buildDeliver(
  read: Located<ReadMap> | undefined,
  known: KnownIds,
  reader: Reader,
  frame: number,
): ReadonlyMap<string, Located<Crop>> {
  if (!read) return NONE;
  const crops = new Map<string, Located<Crop>>();
  for (const [output, value] of read.value.entries as Iterable<[string, Located<ReadMap>]>) {
    const crop = buildCrop(value);
    if (crop && crop !== 'incomplete') crops.set(output, crop);
    if (!known.outputs.has(output)) reportUnknown(reader, frame, 'output', output, known.outputs.keys(), value.key);
  }
  return crops;
}

function reportUnknown(
  reader: Reader,
  frame: number,
  what: 'rule' | 'output',
  id: string,
  known: Iterable<string>,
  range: TextRange,
): void {
  const suggestion = nearestWord(id, known);
  const where = what === 'rule' ? 'There is no rule' : 'The manifest delivers no output';
  const hint =
    suggestion === undefined
      ? `Remove it, or name ${what === 'rule' ? 'a rule' : 'an output'} that there is.`
      : `Did you mean ${suggestion}?`;
  reader.problems.push({
    code: what === 'rule' ? 'unknown-rule' : 'unknown-output',
    message: `${where} "${id}". ${hint}`,
    range,
    severity: 'warning',
    frame,
    ...(suggestion !== undefined && { suggestion }),
  });
}
