import type { PhotoNotes } from '../session/notes/notes.ts';
import { list, plural, type Section } from './notes-words.ts';

/** A lean under this is nobody's habit, in degrees. */
const SEEN = 0.3;
const CLEAR = 1;

/**
 * Which way the photos lean on average. The straightening that levels a photo turns it clockwise when it is positive, so
 * the photo leans counter-clockwise: the camera was held clockwise.
 */
export function leanSection(notes: readonly PhotoNotes[]): Section {
  const title = 'Which way the camera leans';
  const asked = notes.filter(({ levelling }) => levelling !== undefined);
  if (asked.length === 0)
    return {
      title,
      counted: 0,
      found: 'No photo tells: no lines to level by were found, and nobody straightened one.',
    };
  const turns = asked.map(({ levelling }) => levelling!);
  const mean = turns.reduce((sum, turn) => sum + turn, 0) / turns.length;
  const spread = Math.sqrt(turns.reduce((sum, turn) => sum + (turn - mean) ** 2, 0) / turns.length);
  const isHabit = Math.abs(mean) >= SEEN && Math.abs(mean) > (2 * spread) / Math.sqrt(turns.length);
  const clear = asked.filter(({ levelling }) => Math.abs(levelling!) >= CLEAR);
  const ofThem =
    clear.length === 0
      ? ''
      : `\n\nBy ${CLEAR}° or more: ${clear.length}.\n\n${list(clear, ({ levelling }) => `leans ${degrees(levelling!)} ${pictureLeans(levelling!)}`)}`;
  if (!isHabit) {
    const found = `${plural(asked.length, 'photo')} can tell, and they lean to no side in particular.${ofThem}`;
    return { title, counted: asked.length, found };
  }
  const found =
    `${plural(asked.length, 'photo')} can tell. On average they lean ${degrees(mean)} ${pictureLeans(mean)}: ` +
    `the camera was held ${cameraHeld(mean)}.${ofThem}`;
  return {
    title,
    counted: asked.length,
    found,
    next: `turn the camera a little ${pictureLeans(mean)}, or let it show its level.`,
  };
}

/** By its straightening. */
function pictureLeans(levelling: number): string {
  return levelling > 0 ? 'counter-clockwise' : 'clockwise';
}

function cameraHeld(levelling: number): string {
  return levelling > 0 ? 'turned clockwise' : 'turned counter-clockwise';
}

function degrees(value: number): string {
  return `${Math.round(Math.abs(value) * 10) / 10}°`;
}
