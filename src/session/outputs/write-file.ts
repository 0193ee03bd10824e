import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { renderPicture } from '../../photos/render/render.ts';
import { readPhotoSize } from '../../photos/size.ts';
import { causeOf, SessionError } from '../session-error.ts';
import { cutOf, fileOptionsOf, keyOf, type FilePlan } from './file-plan.ts';
import { sizeOfOutput } from './output-size.ts';
import { digestOf, type RenderRecord, type Source } from './record.ts';
import { makeFolderFor } from './target.ts';
import { tooLarge } from './too-large.ts';
import { writeWhole } from '../write-whole.ts';

export interface WrittenFile {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** The file has more pixels than the photo's crop. */
  readonly isEnlarged: boolean;
}

/** The target takes no more files. */
export class TargetFailure extends SessionError {}

export interface FileToWrite extends FilePlan {
  readonly target: string;
  readonly record: RenderRecord;
  /** Relative to the target, with `/`. */
  readonly name: string;
  /** The photo's. */
  readonly path: string;
  readonly source: Source;
}

/**
 * Makes one file, unless it is there and up to date.
 * @throws PhotoError or SessionError when it cannot be made; TargetFailure when no other could be, either
 */
export async function writeFile(file: FileToWrite): Promise<WrittenFile | { readonly upToDate: string }> {
  const { target, record, name, path, source } = file;
  const photo = await readPhotoSize(path);
  const cut = cutOf(file, photo);
  const size = sizeOfOutput(file.output, cut.crop, file.shape);
  const options = fileOptionsOf(file.output, size);
  const large = tooLarge(size, options.format);
  if (large !== undefined) throw new SessionError(large);
  const key = keyOf(source.photo, file, size);
  const place = join(target, name);
  const present = await readFile(place).then(digestOf, (error: unknown) => {
    refuseUnlessAbsent(place, error);
    return undefined;
  });
  if (present !== undefined) {
    if (record.isUpToDate(name, present, key)) return { upToDate: name };
    if (!(await record.isOwnNow(name, present))) throw notOurs();
    if (record.isUpToDate(name, present, key)) return { upToDate: name };
    if (record.isOfAnother(name, source)) throw ofAnother();
  }
  const picture = await renderPicture(path, () => cut, options);
  await makeFolderFor(target, name);
  // The record comes first: whoever is killed in between leaves a line without a file, not a file that nobody knows.
  await record.add(name, key, digestOf(picture.bytes), source).catch((error: unknown) => {
    throw new TargetFailure(error instanceof Error ? error.message : String(error), { cause: error });
  });
  try {
    await writeWhole(place, picture.bytes);
  } catch (error) {
    throw new TargetFailure(`${place} cannot be written: ${causeOf(error)}.`, { cause: error });
  }
  return { name, ...picture.size, isEnlarged: picture.isEnlarged };
}

function ofAnother(): SessionError {
  return new SessionError(
    'A file of this name was rendered here for another session. It is left as it is: render each session into a folder of its own, or begin the output’s name with {session}.',
  );
}

function notOurs(): SessionError {
  return new SessionError(
    'There is a file of this name that this program did not write, or that was changed since. It is left as it is: move it away, or render into another folder.',
  );
}

function refuseUnlessAbsent(place: string, error: unknown): void {
  if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return;
  throw new SessionError(`${place} cannot be looked at: ${causeOf(error)}.`, { cause: error });
}
