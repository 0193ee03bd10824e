import type { Frame, Output } from '../../manifest/manifest.ts';

/** Where the manifest gives no template. */
export const DEFAULT_NAME = '{stem}-{output}';

/** One file that a session delivers. */
export interface NamedFile {
  readonly frame: Frame;
  readonly output: Output;
  /** Relative to the target folder, with `/`. */
  readonly name: string;
}

/**
 * The file of every frame and output. No two are the same, not even on a disk that takes upper and lower case for one:
 * the later one, in the manifest's order, gets -2, -3 … Names do not depend on what of it is rendered.
 * @param session what the session is called
 * @param endingOf a file's ending with its dot, by output
 */
export function namedFiles(
  frames: readonly Frame[],
  outputs: readonly Output[],
  session: string,
  endingOf: (output: Output) => string,
): NamedFile[] {
  const taken = new Set<string>();
  return frames.flatMap((frame) =>
    outputs.map((output): NamedFile => {
      const stem = nameFor(output.name?.value ?? DEFAULT_NAME, frame, output, session);
      const ending = endingOf(output);
      let name = `${stem}${ending}`;
      for (let number = 2; taken.has(foldedName(name)); number++) name = `${stem}-${number}${ending}`;
      taken.add(foldedName(name));
      return { frame, output, name };
    }),
  );
}

/** The same for all names that some disk takes for one. */
export function foldedName(name: string): string {
  return name.normalize('NFC').toLowerCase();
}

function nameFor(template: string, frame: Frame, output: Output, session: string): string {
  const words: Readonly<Record<string, string>> = {
    session,
    stem: stemOf(frame.photo.value),
    output: output.id,
  };
  // Only the template itself may make folders.
  const filled = template.replace(/\{(session|stem|output)\}/g, (_, word: string) => plain(words[word] ?? ''));
  const parts = filled.split('/').map(asFileName).filter(Boolean);
  return parts.length > 0 ? parts.join('/') : 'unnamed';
}

function stemOf(photo: string): string {
  const name = photo.slice(photo.lastIndexOf('/') + 1);
  const dot = name.lastIndexOf('.');
  return dot > 0 ? name.slice(0, dot) : name;
}

/** Without what a path or some file system gives a meaning of its own. */
function plain(text: string): string {
  return text.replace(/[/\\:*?"<>|\u0000-\u001f\u007f]+/g, '-');
}

/** Names that Windows keeps for devices ("Naming Files, Paths, and Namespaces", from memory). */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
/** File systems take 255 bytes; there must be room for an ending and a temporary one. */
const MOST_LETTERS = 120;

function asFileName(part: string): string {
  const trimmed = plain(part)
    .trim()
    .replace(/[. ]+$/, '')
    .replace(/^\.+/, '');
  const short = Array.from(trimmed).slice(0, MOST_LETTERS).join('');
  return DEVICES.test(short) ? `${short}-` : short;
}
