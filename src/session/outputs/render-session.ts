import { stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import type { Finding } from '../../rules/finding.ts';
import { nearestWord } from '../../manifest/spelling.ts';
import { shardPart, type Shard } from '../check-part.ts';
import { Digests } from '../digests.ts';
import { manifestNamesIn } from '../find-manifest.ts';
import { inParallel } from '../in-parallel.ts';
import { removeLeftovers } from '../leftovers.ts';
import { photoStates } from '../photo-states.ts';
import { SessionError } from '../session-error.ts';
import type { Session } from '../session.ts';
import { problemOfWhole } from '../trust.ts';
import type { NamedFile } from './file-names.ts';
import { filesOfSession, outdatedFiles } from './outdated-files.ts';
import { planFile } from './plan-file.ts';
import { digestOf, RenderRecord } from './record.ts';
import { openTarget } from './target.ts';
import { TargetFailure, writeFile, type WrittenFile } from './write-file.ts';

export interface RenderOptions {
  /** The folder for the files. */
  readonly to: string;
  /** Only the output of this name. */
  readonly output?: string | undefined;
  /** Only the frame of this name. */
  readonly frame?: string | undefined;
  /** Only the frames of this shard. */
  readonly shard?: Shard | undefined;
  /** An interrupt ends after the files that are being made; they are kept. */
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: { readonly done: number; readonly total: number }) => void;
}

export interface RenderFailure {
  readonly frame: string;
  readonly output: string;
  /** The file that was not made. */
  readonly name: string;
  readonly message: string;
}

/** What has to be known about a file, in the words that a check has for it. */
export interface FileRemark {
  readonly name: string;
  readonly finding: Finding;
}

/** What a run of `renderSession` did; names are relative to the target folder. */
export interface RenderReport {
  readonly to: string;
  readonly written: readonly WrittenFile[];
  readonly upToDate: readonly string[];
  readonly failed: readonly RenderFailure[];
  /** Of files that are there now, in the order of the manifest. */
  readonly remarks: readonly FileRemark[];
  /** Files of this session in the target that it makes no more; asked after a whole run alone. */
  readonly outdated: readonly string[];
  /** The target could not be written any more, and the rest was left. */
  readonly stopped?: string;
  readonly wasInterrupted: boolean;
  /** Files that this run was to make. */
  readonly total: number;
  /** Entries of `frames` that are no frames, so that nobody knows what they deliver. */
  readonly unreadEntries: number;
  /** Of some files where the photo was taken is left out. */
  readonly isLocationLeftOut: boolean;
}

/**
 * Renders every frame for every output. Photos are only read; a file that this program did not write is never replaced;
 * files that are up to date are left alone, so that a second run finishes what the first did not.
 * @throws SessionError when nothing can be rendered at all
 */
export async function renderSession(session: Session, options: RenderOptions): Promise<RenderReport> {
  const { path, photosFolder } = session;
  const files = chooseFiles(session, options);
  const problem = problemOfWhole(session) ?? session.manifest.problems.find(({ code }) => code === 'yaml');
  if (problem) throw new SessionError(`${path}: ${problem.message} Nothing was rendered.`);
  const target = await openTarget(options.to, photosFolder);
  await removeLeftovers(files.map(({ name }) => join(target, name)));
  const states = await photoStates(session, options.signal, new Set(files.map(({ frame }) => frame.photo.value)));
  const identity = identityOf(path);
  const record = await RenderRecord.open(target, await sessionsBeside(path));
  const unread = unreadFrames(session);
  const digests = new Digests();
  const outcomes: Outcome[] = [];
  const remarks = new Map<string, readonly Finding[]>();
  let stopped: string | undefined;
  await inParallel(files, availableParallelism(), async (file) => {
    if (stopped !== undefined || options.signal?.aborted === true) return;
    options.onProgress?.({ done: outcomes.length, total: files.length });
    const trouble = unread.get(file.frame.index);
    if (trouble !== undefined) {
      outcomes.push(failureOf(file, new SessionError(`its entry cannot be read as it is: ${trouble}`)));
      return;
    }
    try {
      const { remarks: ofFile, ...plan } = planFile(session, file, states.get(file.frame.photo.value));
      const found = await stat(plan.path).catch(() => undefined);
      const digest = found ? await digests.of(plan.path, found) : '';
      outcomes.push(
        await writeFile({ target, record, name: file.name, source: { session: identity, photo: digest }, ...plan }),
      );
      remarks.set(file.name, ofFile);
    } catch (error) {
      if (error instanceof TargetFailure) stopped ??= error.message;
      else outcomes.push(failureOf(file, error));
    }
  });
  await digests.save();
  const wasInterrupted = options.signal?.aborted === true;
  const isWhole = [options.output, options.frame, options.shard, stopped].every((part) => part === undefined);
  const outdated = isWhole && !wasInterrupted ? await outdatedFiles(session, target, record, identity) : [];
  return {
    to: options.to,
    ...summed(outcomes, files),
    remarks: files.flatMap(({ name }) => (remarks.get(name) ?? []).map((finding) => ({ name, finding }))),
    outdated,
    ...(stopped !== undefined && { stopped }),
    wasInterrupted,
    total: files.length,
    // Of the session as a whole, so the first shard tells it.
    unreadEntries:
      (options.shard?.number ?? 1) === 1 ? session.manifest.frameCount - session.manifest.frames.length : 0,
    isLocationLeftOut: leavesOutLocation(files),
  };
}

/** How the record names a session. */
function identityOf(manifest: string): string {
  return digestOf(Buffer.from(resolve(manifest)));
}

async function sessionsBeside(manifest: string): Promise<ReadonlySet<string>> {
  const folder = dirname(resolve(manifest));
  const names = (await manifestNamesIn(folder)).filter((name) => name !== basename(manifest));
  return new Set(names.map((name) => identityOf(join(folder, name))));
}

/** Frames with an error in their entry, and the first one: what they deliver may not be what was meant. */
function unreadFrames({ manifest }: Session): ReadonlyMap<number, string> {
  const errors = manifest.problems.filter(({ severity }) => severity === 'error');
  return new Map(errors.toReversed().flatMap(({ frame, message }) => (frame === undefined ? [] : [[frame, message]])));
}

type Outcome = WrittenFile | { readonly upToDate: string } | RenderFailure;

function failureOf({ frame, output, name }: NamedFile, error: unknown): RenderFailure {
  const message = error instanceof Error ? error.message : String(error);
  return { frame: frame.name, output: output.id, name, message };
}

/** In the order of the manifest, whatever came first. */
function summed(
  outcomes: readonly Outcome[],
  files: readonly NamedFile[],
): Pick<RenderReport, 'written' | 'upToDate' | 'failed'> {
  const order = new Map(files.map(({ name }, index) => [name, index]));
  const sorted = [...outcomes].sort((first, second) => order.get(nameOf(first))! - order.get(nameOf(second))!);
  return {
    written: sorted.filter((outcome): outcome is WrittenFile => 'isEnlarged' in outcome),
    upToDate: sorted.flatMap((outcome) => ('upToDate' in outcome ? [outcome.upToDate] : [])),
    failed: sorted.filter((outcome): outcome is RenderFailure => 'message' in outcome),
  };
}

function nameOf(outcome: Outcome): string {
  return 'upToDate' in outcome ? outcome.upToDate : outcome.name;
}

/** The files that are asked for; names are those that the whole session's files have. */
function chooseFiles(all: Session, { output, frame, shard }: RenderOptions): NamedFile[] {
  const { manifest, path } = all;
  const outputs = [...manifest.deliver.values()];
  if (outputs.length === 0) {
    throw new SessionError(
      `${path} delivers nothing. Say what under "deliver:", such as square: { aspect: "1:1", long: 2048px }.`,
    );
  }
  if (output !== undefined && !manifest.deliver.has(output)) {
    throw new SessionError(
      `${path} delivers no "${output}". ${meantOr(output, [...manifest.deliver.keys()], 'It delivers')}`,
    );
  }
  const names = manifest.frames.map(({ name }) => name);
  if (frame !== undefined && !names.includes(frame)) {
    throw new SessionError(
      `${path} has no frame "${frame}". ${meantOr(frame, names, 'Frames are named by their photo, such as', 1)}`,
    );
  }
  const part = shard && shardPart(all, shard);
  return filesOfSession(all).filter(
    (file) =>
      (output === undefined || file.output.id === output) &&
      (frame === undefined || file.frame.name === frame) &&
      (part?.includes(file.frame) ?? true),
  );
}

function meantOr(word: string, words: readonly string[], otherwise: string, most = 10): string {
  const meant = nearestWord(word, words);
  return meant === undefined ? `${otherwise} ${words.slice(0, most).join(', ')}.` : `Did you mean ${meant}?`;
}

function leavesOutLocation(files: readonly NamedFile[]): boolean {
  return files.some(({ output }) => output.location?.value !== true && output.metadata?.value !== 'none');
}
