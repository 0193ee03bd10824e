import type { Rectangle } from '../geometry/shapes.ts';
import type { Aspect, Composition, Crop, Frame, Length, Located, Manifest } from './manifest.ts';
import type { NewMap, NewValue } from './new-value.ts';
import { aspectText, newAspect, newCrop, newNumber, newText, newWord } from './new-value.ts';
import { ownPair } from './places.ts';
import { FRAME_KEYS } from './schema-frame.ts';
import type { OldValue } from './set-value.ts';
import { setEntries } from './set-value.ts';
import type { TextEdit } from './text-edit.ts';
import type { WrittenMap } from './written.ts';

/** What to set in a frame; keys that are left out stay as they are. */
export interface FrameChange {
  /** Fractions of the photo in the turned picture; written with four decimals. */
  readonly crop?: Rectangle;
  /** Degrees; written with two decimals. */
  readonly straighten?: number;
  readonly aspect?: Aspect;
  readonly length?: Length;
  readonly compose?: Composition;
  readonly final?: boolean;
  readonly note?: string;
  /** Reasons to add or replace, by `rule` or `rule/joint`. */
  readonly allow?: Readonly<Record<string, string>>;
  /** Own crops to add or replace, by output. */
  readonly deliver?: Readonly<Record<string, Rectangle>>;
}

/**
 * The edits that make `changes`, by the frame's index. Only characters of the values that are set change; other frames
 * keep their values, whatever anchors, aliases and merge keys the text uses. Keys whose YAML is broken are left alone, as
 * are indices that no readable frame has. All edits are offsets into `manifest.text`; make them together (applyEdits).
 */
export function editFrames(manifest: Manifest, changes: ReadonlyMap<number, FrameChange>): TextEdit[] {
  const plans = new Map<Frame, Plan>();
  for (const frame of manifest.frames) {
    const change = changes.get(frame.index);
    if (!change) continue;
    const values = newValues(frame, change);
    for (const key of writtenOf(manifest, frame).broken) values.delete(key);
    plans.set(frame, { values, old: oldValues(frame) });
  }
  if (manifest.shared.length > 0) keepInheritors(manifest, plans);
  return [...plans].flatMap(([frame, { values, old }]) =>
    setEntries(manifest, writtenOf(manifest, frame).node, values, old, FRAME_KEYS),
  );
}

function writtenOf(manifest: Manifest, { index }: Frame): WrittenMap {
  return manifest.writtenFrames.get(index)!;
}

/** What is to be set in a frame, and what it has. */
interface Plan {
  readonly values: Map<string, NewValue>;
  readonly old: Map<string, OldValue>;
}

/** The edits that change one frame; see editFrames. */
export function editFrame(manifest: Manifest, frameIndex: number, change: FrameChange): TextEdit[] {
  return editFrames(manifest, new Map([[frameIndex, change]]));
}

export function setFrameCrop(manifest: Manifest, frameIndex: number, crop: Rectangle): TextEdit[] {
  return editFrame(manifest, frameIndex, { crop });
}

export function setStraighten(manifest: Manifest, frameIndex: number, straighten: number): TextEdit[] {
  return editFrame(manifest, frameIndex, { straighten });
}

export function setLength(manifest: Manifest, frameIndex: number, length: Length): TextEdit[] {
  return editFrame(manifest, frameIndex, { length });
}

export function setFinal(manifest: Manifest, frameIndex: number, final: boolean): TextEdit[] {
  return editFrame(manifest, frameIndex, { final });
}

/** `key` is `rule` or `rule/joint`. */
export function addAllow(manifest: Manifest, frameIndex: number, key: string, reason: string): TextEdit[] {
  return editFrame(manifest, frameIndex, { allow: { [key]: reason } });
}

function newValues(frame: Frame, change: FrameChange): Map<string, NewValue> {
  const { crop, straighten, aspect, length, compose, final, note, allow, deliver } = change;
  const values = new Map<string, NewValue>();
  if (crop) values.set('crop', newCrop(crop));
  if (straighten !== undefined) values.set('straighten', newNumber(straighten, 2));
  if (aspect) values.set('aspect', newAspect(aspect));
  if (length !== undefined) values.set('length', newWord(length));
  if (compose !== undefined) values.set('compose', newWord(compose));
  if (allow) values.set('allow', allMembers(frame.allow, allow, newText));
  if (note !== undefined) values.set('note', newText(note));
  if (final !== undefined) values.set('final', newWord(final));
  if (deliver) values.set('deliver', allMembers(frame.deliver, deliver, newCrop));
  return values;
}

/** The members that a map has, with those to set: where the whole must be written anew, none may be lost. */
function allMembers<T>(
  old: ReadonlyMap<string, Located<T>>,
  set: Readonly<Record<string, T>>,
  write: (value: T) => NewValue,
): NewMap {
  const members = new Map<string, NewValue>();
  for (const [key, { value }] of old) members.set(key, write(value));
  for (const [key, value] of Object.entries(set)) members.set(key, write(value));
  return { members };
}

/** The present values of the keys that can be set. */
function oldValues(frame: Frame): Map<string, OldValue> {
  const { crop, straighten, aspect, length, compose, final, note, allow, deliver } = frame;
  const values = new Map<string, OldValue>();
  if (crop) values.set('crop', oldCrop(crop));
  if (aspect) values.set('aspect', aspectText(aspect.value));
  for (const [key, located] of Object.entries({ straighten, length, compose, final, note })) {
    if (located) values.set(key, located.value);
  }
  if (allow.size > 0) values.set('allow', new Map([...allow].map(([key, { value }]) => [key, value])));
  if (deliver.size > 0) values.set('deliver', new Map([...deliver].map(([key, value]) => [key, oldCrop(value)])));
  return values;
}

function oldCrop({ value: { x, y, w, h } }: Located<Crop>): ReadonlyMap<string, number> {
  return new Map(Object.entries({ x, y, w, h }));
}

/**
 * A frame that others merge in, or stand for by an alias, gives them what is set in it. Those that have nothing of
 * their own there get their present value written out; `null` where they have none.
 */
function keepInheritors(manifest: Manifest, plans: Map<Frame, Plan>): void {
  const heirsBySource = new Map<number, Frame[]>();
  for (const frame of manifest.frames) {
    for (const start of new Set(writtenOf(manifest, frame).sources.map((source) => source.start))) {
      const heirs = heirsBySource.get(start);
      if (heirs) heirs.push(frame);
      else heirsBySource.set(start, [frame]);
    }
  }
  for (const [frame, plan] of [...plans]) {
    const heirs = (heirsBySource.get(frame.range.start) ?? []).filter((heir) => heir !== frame);
    if (heirs.length === 0) continue;
    const changing = [...plan.values].filter(
      ([key, value]) =>
        setEntries(manifest, writtenOf(manifest, frame).node, new Map([[key, value]]), plan.old).length > 0,
    );
    for (const heir of heirs) {
      const kept = plans.get(heir) ?? { values: new Map<string, NewValue>(), old: oldValues(heir) };
      for (const [key] of changing) {
        const { node, broken } = writtenOf(manifest, heir);
        const own = ownPair(node, key) !== undefined || broken.has(key);
        if (own) continue;
        if (!kept.values.has(key)) kept.values.set(key, presentValue(heir, key));
        // What is there comes from the frame that changes: it does not count.
        kept.old.delete(key);
      }
      plans.set(heir, kept);
    }
  }
}

function presentValue(frame: Frame, key: string): NewValue {
  return toNew(oldValues(frame).get(key) ?? null);
}

function toNew(value: OldValue): NewValue {
  if (typeof value === 'string') return newText(value);
  if (typeof value === 'number') return newNumber(value, 12);
  if (typeof value !== 'object' || value === null) return newWord(value);
  return { members: new Map([...value].map(([key, member]) => [key, toNew(member)])) };
}
