import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../../src/cli/run.ts';
import { decodePhoto } from '../../src/photos/decode.ts';
import { digestOfFile } from '../../src/photos/digest.ts';
import { PhotoError } from '../../src/photos/photo-error.ts';
import { readRating } from '../../src/photos/rating.ts';
import { readPhotoSize } from '../../src/photos/size.ts';
import { Random } from '../scenes/random.ts';
import { hostileSession, smallPictures, type HostileSession } from './session.ts';

let pictures: ReadonlyMap<string, Buffer> | undefined;

/** The session of a seed: always the same. */
export async function sessionOfSeed(seed: number): Promise<HostileSession> {
  pictures ??= await smallPictures();
  return hostileSession(new Random(seed), pictures);
}

/**
 * Takes one session through the whole chain: photo facts, check as text and as JSON, fix in a dry run.
 * @returns how long the slowest step took, in seconds of the processor
 * @throws Error saying what was wrong with the answer
 */
export async function tryCase(seed: number): Promise<number> {
  let slowest = 0;
  const timed = async <Result>(step: () => Promise<Result>): Promise<Result> => {
    const began = process.cpuUsage();
    const result = await step();
    const { user, system } = process.cpuUsage(began);
    slowest = Math.max(slowest, (user + system) / 1e6);
    return result;
  };
  const session = await sessionOfSeed(seed);
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-fuzz-'));
  try {
    writeFileSync(join(folder, 'crops.yaml'), session.manifest);
    writeFileSync(join(folder, 'crops.people.jsonl'), session.people);
    for (const [name, bytes] of session.photos) {
      writeFileSync(join(folder, name), bytes);
      await timed(() => lookAtPhoto(join(folder, name)));
    }
    const manifest = join(folder, 'crops.yaml');
    await timed(() => ask('check', manifest));
    const json = await timed(() => ask('check', '--format', 'json', manifest));
    if (json.code < 2) JSON.parse(json.out);
    await timed(() => ask('fix', '--dry-run', manifest));
    if (!readFileSync(manifest).equals(Buffer.from(session.manifest))) throw new Error('the manifest was changed');
    return slowest;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function lookAtPhoto(path: string): Promise<void> {
  for (const look of [readPhotoSize, digestOfFile, (photo: string) => decodePhoto(photo, 64)]) {
    await look(path).catch((error: unknown) => {
      if (!(error instanceof PhotoError)) throw error;
    });
  }
  await readRating(path);
}

async function ask(...argv: string[]): Promise<{ readonly code: number; readonly out: string }> {
  let out = '';
  let err = '';
  const code = await run(argv, {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
    signal: new AbortController().signal,
  });
  const said = out + err;
  if (/should not have happened/.test(said)) throw new Error(said);
  if (said.trim() === '') throw new Error(`${argv.join(' ')} said nothing`);
  if (/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.test(said))
    throw new Error('a control character came through');
  if (/\bNaN\b|\bundefined\b|\[object /.test(said.replaceAll(/"[^"]*"/g, '')))
    throw new Error(`half a message: ${said}`);
  return { code, out };
}
