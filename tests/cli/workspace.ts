import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { run } from '../../src/cli/run.ts';
import { formatPeopleFile, EMPTY_PEOPLE_FILE } from '../../src/people/people-file.ts';
import type { Person, PhotoPeople } from '../../src/people/person.ts';
import { PHOTO, standing } from '../../src/people/testing/standing.ts';

// No test touches the caches of whoever runs it.
process.env['SELVEDGE_CACHE'] = mkdtempSync(join(tmpdir(), 'selvedge-cache-'));

/** A crop of the standing figure with which nothing is wrong, and one whose lower edge goes through the knees. */
export const CLEAN = '{ x: 0.2, y: 0.2, w: 0.6, h: 0.76 }';
export const KNEES = '{ x: 0.2, y: 0.2, w: 0.6, h: 0.5373 }';

export const HEAD = 'selvedge: 1\naspect: free\ncompose: free\nframes:\n';

/** A temporary folder of its own, with these files. */
export function folderWith(files: Readonly<Record<string, string | Buffer>>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'selvedge-test-')));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}

/** A people file with one standing figure, or these people, in each photo. */
export function peopleFile(photos: Readonly<Record<string, readonly Person[] | 'standing'>>, digest?: string): string {
  const all = Object.entries(photos).map(([photo, people]): PhotoPeople => ({
    photo,
    size: PHOTO,
    ...(digest !== undefined && { digest }),
    people: people === 'standing' ? [standing()] : people,
  }));
  return formatPeopleFile(EMPTY_PEOPLE_FILE, all);
}

/** A session whose photos are elsewhere: a manifest and a people file with a standing figure in each photo. */
export function measuredSession(manifest: string, photos: readonly string[] = ['a.jpg']): string {
  const people = peopleFile(Object.fromEntries(photos.map((photo) => [photo, 'standing'] as const)));
  return folderWith({ 'crops.yaml': manifest, 'crops.people.jsonl': people });
}

/** A small grey JPEG. */
export function picture(width = 40, height = 60): Promise<Buffer> {
  return sharp({ create: { width, height, channels: 3, background: '#888' } })
    .jpeg()
    .toBuffer();
}

export interface Answer {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line in this process. */
export async function selvedge(...argv: string[]): Promise<Answer> {
  let out = '';
  let err = '';
  const code = await run(argv, {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
    signal: new AbortController().signal,
  });
  return { code, out, err };
}

interface JsonFinding extends Readonly<Record<string, unknown>> {
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
  readonly fixes?: readonly {
    readonly title: string;
    readonly crop: Readonly<Record<string, number>>;
    readonly straighten?: number;
  }[];
  readonly related?: readonly { readonly rule: string; readonly message: string }[];
}

interface JsonReport {
  readonly manifests: readonly {
    readonly findings: readonly JsonFinding[];
    readonly frames: readonly (Readonly<Record<string, unknown>> & { readonly findings: readonly JsonFinding[] })[];
  }[];
  readonly summary: Readonly<Record<string, number>>;
}

/** `check --format json`, parsed. */
export async function checkJson(...argv: string[]): Promise<{ code: number; report: JsonReport }> {
  const { code, out, err } = await selvedge('check', '--format', 'json', ...argv);
  if (out === '') throw new Error(`No JSON: ${err}`);
  return { code, report: JSON.parse(out) as JsonReport };
}

/** Digests of all files below a folder, by name. */
export function digestsIn(folder: string, pattern = /./): Record<string, string> {
  const names = (readdirSync(folder, { recursive: true }) as string[]).filter((name) => pattern.test(name)).sort();
  return Object.fromEntries(
    names
      .filter((name) => name.includes('.'))
      .map((name) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex'),
      ]),
  );
}
