import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import sharp from 'sharp';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import {
  createWorkroomPool,
  type MeasureResult,
  type PhotoJob,
  type WorkroomPool,
} from '../../src/vision/workroom/pool.ts';
import { loadModels, MODELS_FOLDER } from '../truth/support/measured.ts';

let folder = '';
let pool: WorkroomPool | undefined;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'selvedge-workroom-'));
  await writeFile(join(folder, 'stand-in.mjs'), STAND_IN);
});

afterEach(() => {
  pool?.close();
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

/** A workroom that does what the photo's name says. It notes in a file when it has died once. */
const STAND_IN = `
import { existsSync, writeFileSync } from 'node:fs';
process.send({ kind: 'ready', protocol: JSON.parse(process.argv[2]).protocol });
process.on('disconnect', () => process.exit(0));
process.on('message', ({ kind, id, path, photo }) => {
  if (kind === 'expect') return;
  if (photo === 'dies') { process.stderr.write('out of memory'); process.exit(7); }
  if (photo === 'dies-once' && !existsSync(path)) { writeFileSync(path, ''); process.exit(7); }
  if (photo === 'hangs') return;
  if (photo === 'bad') return process.send({ kind: 'failed', id, problem: 'damaged', message: 'cut short' });
  process.send({ kind: 'measured', id, people: { photo, size: { width: process.pid, height: 1 }, people: [] } });
});
`;

function standIn(workers: number): WorkroomPool {
  pool = createWorkroomPool({ version: 'test', workers, script: join(folder, 'stand-in.mjs'), modelsFolder: folder });
  return pool;
}

function jobs(...photos: string[]): PhotoJob[] {
  return photos.map((photo) => ({ photo, path: join(folder, photo) }));
}

async function collect(results: AsyncIterable<MeasureResult>): Promise<Map<string, string>> {
  const said = new Map<string, string>();
  for await (const result of results) said.set(result.job.photo, 'people' in result ? 'measured' : result.problem);
  return said;
}

describe('the workroom pool', () => {
  it('measures all, reports what cannot be measured, and goes on after a death', async () => {
    const said = await collect(standIn(2).measure(jobs('a', 'bad', 'dies', 'b', 'dies-once', 'c')));
    expect(Object.fromEntries(said)).toEqual({
      a: 'measured',
      b: 'measured',
      c: 'measured',
      bad: 'damaged',
      dies: 'crashed',
      'dies-once': 'measured',
    });
  });

  it('says how a workroom died and what it complained about', async () => {
    for await (const result of standIn(1).measure(jobs('dies'))) {
      expect(result).toMatchObject({ problem: 'crashed' });
      expect('message' in result && result.message).toMatch(/exit code 7.*out of memory/);
    }
  });

  it('uses as many processes as it was told, and keeps them', async () => {
    const processes = new Set<number>();
    const both = standIn(2);
    for (const round of ['first', 'second']) {
      for await (const result of both.measure(jobs(`${round}-1`, `${round}-2`, `${round}-3`, `${round}-4`))) {
        if ('people' in result) processes.add(result.people.size.width);
      }
    }
    expect(processes.size).toBe(2);
    expect(new Set(both.processIds())).toEqual(processes);
  });

  it('takes no more photos than are under way and next', async () => {
    let taken = 0;
    function* source(): Generator<PhotoJob> {
      for (let index = 0; index < 100; index++) {
        taken += 1;
        yield jobs(`photo-${index}`)[0]!;
      }
    }
    let given = 0;
    for await (const result of standIn(2).measure(source())) {
      expect('people' in result).toBe(true);
      given += 1;
      expect(taken).toBeLessThanOrEqual(given + 4);
    }
    expect(given).toBe(100);
  });

  it('ends early when aborted, and ends the process that was at work', async () => {
    const abort = new AbortController();
    const said: string[] = [];
    for await (const { job } of standIn(2).measure(jobs('hangs', 'a', 'hangs', 'b', 'c'), abort.signal)) {
      said.push(job.photo);
      if (said.length === 2) abort.abort();
    }
    expect(said).toEqual(['a', 'b']);
    expect(pool?.processIds()).toHaveLength(1);
  });

  it('gives up what is under way when the taker stops', async () => {
    for await (const { job } of standIn(2).measure(jobs('hangs', 'a', 'b'))) {
      expect(job.photo).toBe('a');
      break;
    }
    expect(pool?.processIds()).toHaveLength(1);
  });
});

describe('the real workroom', () => {
  beforeAll(async () => {
    const main = fileURLToPath(new URL('../../src/vision/workroom/main.ts', import.meta.url));
    // Beside the models, so that its packages are found from the project's folder.
    await (await loadModels()).release();
    await build({
      entryPoints: [main],
      outfile: join(MODELS_FOLDER, '../workroom-under-test.js'),
      bundle: true,
      platform: 'node',
      format: 'esm',
      packages: 'external',
    });
  }, 120_000);

  it('measures an empty picture and explains a missing one', async () => {
    const path = join(folder, 'grey.png');
    await sharp({ create: { width: 640, height: 480, channels: 3, background: '#808080' } })
      .png()
      .toFile(path);
    pool = createWorkroomPool({
      version: '9.9.9',
      workers: 1,
      script: join(MODELS_FOLDER, '../workroom-under-test.js'),
      modelsFolder: MODELS_FOLDER,
    });
    const results: MeasureResult[] = [];
    for await (const result of pool.measure([{ path, photo: 'proofs/grey.png' }, ...jobs('nowhere.jpg')]))
      results.push(result);
    expect(results).toMatchObject([
      { people: { photo: 'proofs/grey.png', size: { width: 640, height: 480 }, people: [] } },
      { job: { photo: 'nowhere.jpg' }, problem: 'missing' },
    ]);
    expect('people' in results[0]! && results[0].people.by).toMatch(
      /^selvedge 9\.9\.9; movenet-multipose, .* \(MIT\); lines \d+$/,
    );
  }, 120_000);
});
