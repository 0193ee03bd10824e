import { createHash } from 'node:crypto';
import { appendFile, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { causeOf, SessionError } from '../session-error.ts';

/** In the target folder: one line per file that was about to be written. */
export const RECORD_NAME = '.selvedge-rendered.jsonl';

interface Line {
  readonly file: string;
  /** Of what the file was made from. */
  readonly key: string;
  /** Of the file's bytes. */
  readonly digest: string;
  readonly source?: Source;
}

/** Where a file came from. */
export interface Source {
  /** Digest of the manifest's path. */
  readonly session: string;
  /** Digest of the photo. */
  readonly photo: string;
}

/**
 * What this program has written into a folder, so that a later run knows its own files from other people's. Lines are
 * only added, and before their file is written: a run that is killed, or two runs at once, leave no file that nobody knows.
 */
export class RenderRecord {
  readonly #path: string;
  /** Sessions that are there beside the one that is rendered. */
  readonly #others: ReadonlySet<string>;
  readonly #lines = new Map<string, Line[]>();

  private constructor(path: string, others: ReadonlySet<string>) {
    this.#path = path;
    this.#others = others;
  }

  /**
   * Of a folder without a record nothing is known, of a damaged record what can be read.
   * @param others sessions (digests of their manifests' paths) whose files are left alone, whatever they were made from
   */
  static async open(folder: string, others: ReadonlySet<string> = new Set()): Promise<RenderRecord> {
    const record = new RenderRecord(join(folder, RECORD_NAME), others);
    await record.#read();
    return record;
  }

  /** Whether a file with these bytes was written by this program under this name, perhaps by another run just now. */
  async isOwnNow(file: string, digest: string): Promise<boolean> {
    if (this.#isOwn(file, digest)) return true;
    await this.#read();
    return this.#isOwn(file, digest);
  }

  /** Whether this program has written a file of this name here. */
  knows(file: string): boolean {
    return this.#lines.has(file);
  }

  /** What was last written here for a session, by the digest of its manifest's path. */
  filesOf(session: string): string[] {
    return [...this.#lines].flatMap(([file, lines]) => (lines.at(-1)?.source?.session === session ? [file] : []));
  }

  /**
   * Whether the file is another session's: one that is known to be there, or one with another photo (camera counters
   * repeat). The same photo's of an unknown session is this one's, whose manifest lay elsewhere.
   */
  isOfAnother(file: string, { session, photo }: Source): boolean {
    const source = this.#lines.get(file)?.at(-1)?.source;
    if (source === undefined || source.session === session) return false;
    return source.photo !== photo || this.#others.has(source.session);
  }

  /** Whether it was made from exactly this. */
  isUpToDate(file: string, digest: string, key: string): boolean {
    return this.#lines.get(file)?.some((line) => line.digest === digest && line.key === key) === true;
  }

  /** @throws SessionError when the record cannot be written */
  async add(file: string, key: string, digest: string, source: Source): Promise<void> {
    const line = { file, key, digest, source };
    try {
      // A line that was cut off by a full disk or a kill must not swallow this one.
      await appendFile(this.#path, `\n${JSON.stringify(line)}\n`);
    } catch (error) {
      throw new SessionError(`${this.#path} cannot be written: ${causeOf(error)}.`, { cause: error });
    }
    this.#remember(line);
  }

  #isOwn(file: string, digest: string): boolean {
    return this.#lines.get(file)?.some((line) => line.digest === digest) === true;
  }

  async #read(): Promise<void> {
    const text = await readFile(this.#path, 'utf8').catch(() => '');
    this.#lines.clear();
    for (const row of text.split('\n')) {
      const line = lineOf(row);
      if (line) this.#remember(line);
    }
  }

  #remember(line: Line): void {
    this.#lines.set(line.file, [...(this.#lines.get(line.file) ?? []), line]);
  }
}

function lineOf(row: string): Line | undefined {
  if (row === '') return undefined;
  try {
    const { file, key, digest, source } = JSON.parse(row) as Partial<Line>;
    const isWhole = typeof file === 'string' && typeof key === 'string' && typeof digest === 'string';
    return isWhole ? { file, key, digest, ...(isSource(source) && { source }) } : undefined;
  } catch {
    return undefined;
  }
}

function isSource(value: unknown): value is Source {
  if (typeof value !== 'object' || value === null) return false;
  const { session, photo } = value as Partial<Source>;
  return typeof session === 'string' && typeof photo === 'string';
}

export function digestOf(bytes: string | Buffer): string {
  return `sha256:${createHash('sha256').update(bytes).digest('hex')}`;
}
