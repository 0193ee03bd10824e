import { decodePhoto } from '../../src/photos/decode.ts';
import { LONG_EDGE, measurePicture } from '../../src/vision/measure.ts';
import type { RuntimeKind } from '../../src/vision/runtime/runtime.ts';
import type { PhotoJob } from '../../src/vision/workroom/pool.ts';
import { median } from '../truth/support/median.ts';
import { demoPhotos, type LabelledPhoto } from '../truth/support/labels.ts';
import { loadModels } from '../truth/support/measured.ts';
import { hasShared } from '../truth/support/shared-folder.ts';
import { percent } from './percent.ts';
import { modelsAlone } from './support/models-alone.ts';
import { workroomSide } from './support/workroom-side.ts';

/** How many photos, and how often each side measures them: the WebAssembly runtime is several times slower. */
const RUNS = {
  native: { photos: 12, rounds: 5 },
  wasm: { photos: 4, rounds: 3 },
} as const;

/** Measures how fast photos are measured and gives the section for docs/benchmarks.md. */
export async function run(): Promise<string> {
  const title = '## Speed of measuring';
  if (!hasShared('demo-photos', 'bench of measuring')) return `${title}\n\nNot run: the photos are not there.\n`;
  const photos = demoPhotos();
  const parts = await timeParts(photos.slice(0, 8));
  const jobs = photos.map(({ path, name }) => ({ path, photo: name }));
  const rows: string[] = [];
  for (const runtime of ['native', 'wasm'] as const) {
    for (const workers of [1, 2]) rows.push(await row(runtime, workers, jobs.slice(0, RUNS[runtime].photos)));
  }
  return [
    title,
    '',
    parts,
    '',
    'Photos a second through the workroom, beside decoding the same photos and running the same models on the same inputs',
    'alone: as many processes as workers, that do nothing else. Both have seen every photo once before, then take turns:',
    `${RUNS.native.rounds} rounds of ${RUNS.native.photos} photos with the native runtime, ${RUNS.wasm.rounds} rounds of ${RUNS.wasm.photos} with WebAssembly. Photos a second are the median of the`,
    'rounds; the share is the median of each round’s own, with the least and the most.',
    '',
    '| runtime | workers | photos a second | decoding and models alone | share | goal | peak memory of a worker | goal |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

async function row(runtime: keyof typeof RUNS, workers: number, jobs: readonly PhotoJob[]): Promise<string> {
  const { ours, alone, memory } = await takeTurns(runtime, workers, jobs);
  // What slows the machine for a while slows both sides of a round.
  const shares = ours.map((perSecond, round) => perSecond / alone[round]!);
  const share = `**${percent(median(shares))}** (${percent(Math.min(...shares))} – ${percent(Math.max(...shares))})`;
  const peak = memory === undefined ? 'not known here' : `${memory.toFixed(0)} MB`;
  const [measured, least] = [ours, alone].map((rounds) => median(rounds).toFixed(2));
  return `| ${runtime} | ${workers} | ${measured!} | ${least!} | ${share} | at least 90 % | ${peak} | under 600 MB |`;
}

/** Photos a second of each round. */
interface Turns {
  readonly ours: readonly number[];
  readonly alone: readonly number[];
  /** The most that a worker held, in megabytes. */
  readonly memory: number | undefined;
}

async function takeTurns(runtime: RuntimeKind, workers: number, jobs: readonly PhotoJob[]): Promise<Turns> {
  const alone = await modelsAlone(runtime, workers, jobs);
  const workroom = await workroomSide(runtime, workers, jobs);
  try {
    const turns: { ours: number[]; alone: number[] } = { ours: [], alone: [] };
    for (let round = 0; round < RUNS[runtime].rounds; round++) {
      turns.alone.push(await alone.round());
      turns.ours.push(await workroom.round());
    }
    return { ...turns, memory: await workroom.peakMemory() };
  } finally {
    alone.close();
    workroom.close();
  }
}

/** What decoding and measuring cost one after the other in one process. */
async function timeParts(photos: readonly LabelledPhoto[]): Promise<string> {
  const models = await loadModels();
  await models.loadAll();
  let decoding = 0;
  let measuring = 0;
  for (const { path } of photos) {
    const start = process.cpuUsage();
    const { pixels } = await decodePhoto(path, LONG_EDGE);
    const decoded = process.cpuUsage(start);
    await measurePicture(pixels, models);
    const all = process.cpuUsage(start);
    decoding += (decoded.user + decoded.system) / 1000;
    measuring += (all.user + all.system - decoded.user - decoded.system) / 1000;
  }
  await models.release();
  const each = (milliseconds: number): string => (milliseconds / photos.length).toFixed(0);
  return `CPU milliseconds a photo, one process, native: decoding ${each(decoding)}, models and the rest ${each(measuring)}.`;
}
