import type { Rectangle } from '../geometry/shapes.ts';
import type { Aspect, Composition, Length } from './manifest.ts';
import { flowText, newAspect, newCrop, newNumber, newText, plainOrQuoted } from './new-value.ts';
import { FORMAT_VERSION } from './schema.ts';

/** A frame to write. */
export interface NewFrame {
  /** Relative to the photos folder, with `/`. */
  readonly photo: string;
  readonly crop?: Rectangle;
  readonly straighten?: number;
  readonly aspect?: Aspect;
  readonly length?: Length;
  /** Ids of the people that count. */
  readonly subjects?: readonly number[];
  readonly compose?: Composition;
  readonly note?: string;
  readonly final?: boolean;
}

export interface NewManifest {
  readonly session: string;
  /** Folder with the photos, relative to the manifest. Absent or `.`: the manifest's own. */
  readonly photos?: string;
  /** `original`, `free` or `A:B`; left out when absent. */
  readonly aspect?: string;
  readonly frames: readonly NewFrame[];
}

const HEADER = [
  '# The crops of one session, one entry per photo. Nothing here changes a photo: edit freely.',
  '# crop is what is kept, in fractions of the photo: x and y from the left and top edge, w and h its size.',
  '# straighten turns the picture clockwise, in degrees. A photo without crop is kept whole.',
  '# More to say, for all photos or for one (aspect, length, subjects, compose, allow, note, final): selvedge init --help',
];

/** A new manifest's text, for a session that has none yet. */
export function writeManifest({ session, photos, aspect, frames }: NewManifest): string {
  const lines = [...HEADER, `selvedge: ${FORMAT_VERSION}`, `session: ${plainOrQuoted(session)}`];
  if (photos !== undefined && photos !== '.') lines.push(`photos: ${plainOrQuoted(photos)}`);
  if (aspect !== undefined) lines.push(`aspect: ${aspect.includes(':') ? `"${aspect}"` : aspect}`);
  lines.push(frames.length === 0 ? 'frames: []' : 'frames:');
  for (const frame of frames) {
    const [first, ...others] = frameEntries(frame);
    lines.push(`  - ${first!}`, ...others.map((entry) => `    ${entry}`));
  }
  return `${lines.join('\n')}\n`;
}

/** A frame's entries as `key: value`, each fit for a line of its own and for braces. */
export function frameEntries(frame: NewFrame): string[] {
  const { photo, crop, straighten, aspect, length, subjects, compose, note, final } = frame;
  const entries = [`photo: ${plainOrQuoted(photo)}`];
  if (crop) entries.push(`crop: ${flowText(newCrop(crop))}`);
  if (straighten !== undefined) entries.push(`straighten: ${newNumber(straighten, 2).text}`);
  if (aspect) entries.push(`aspect: ${newAspect(aspect).text}`);
  if (length !== undefined) entries.push(`length: ${length}`);
  if (subjects) entries.push(`subjects: [${subjects.join(', ')}]`);
  if (compose !== undefined) entries.push(`compose: ${compose}`);
  if (note !== undefined) entries.push(`note: ${newText(note).text}`);
  if (final !== undefined) entries.push(`final: ${String(final)}`);
  return entries;
}
