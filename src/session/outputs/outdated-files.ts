import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ENDINGS } from '../../photos/render/encode.ts';
import type { Session } from '../session.ts';
import { foldedName, namedFiles, type NamedFile } from './file-names.ts';
import { formatOf } from './file-plan.ts';
import { digestOf, type RenderRecord } from './record.ts';

/** Every file that a session delivers. */
export function filesOfSession({ manifest }: Session): NamedFile[] {
  const session = manifest.session?.value ?? 'session';
  return namedFiles(manifest.frames, [...manifest.deliver.values()], session, (output) => ENDINGS[formatOf(output)]);
}

/**
 * Files in the target that were rendered for this session, are as they were, and that it makes no more: their frame or
 * output is gone or has another name. None while something over the frames, or an entry, cannot be read.
 * @param identity the session's, as the record has it
 */
export async function outdatedFiles(
  session: Session,
  target: string,
  record: RenderRecord,
  identity: string,
): Promise<string[]> {
  const { frames, frameCount, problems } = session.manifest;
  const isInDoubt = problems.some(({ severity, frame }) => severity === 'error' && frame === undefined);
  if (isInDoubt || frames.length < frameCount) return [];
  const made = new Set(filesOfSession(session).map(({ name }) => foldedName(name)));
  const outdated: string[] = [];
  for (const file of record.filesOf(identity).filter((name) => !made.has(foldedName(name)))) {
    const bytes = await readFile(join(target, file)).catch(() => undefined);
    if (bytes && (await record.isOwnNow(file, digestOf(bytes)))) outdated.push(file);
  }
  return outdated.sort();
}
