import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { availableParallelism } from 'node:os';
import { inParallel } from '../../src/session/in-parallel.ts';
import { openSession } from '../../src/session/session.ts';
import { renderSession } from '../../src/session/outputs/render-session.ts';

const COUNT = Number(process.env['SELVEDGE_BENCH_FILES'] ?? 200);
const CROP = { x: 0.1, y: 0.1, w: 0.8, h: 0.8 };

const MANY = 5000;
const ROUNDS = 4;

/** 24-megapixel crops to 2,048 pixels: the render command’s code beside a hand-written loop over the same files. */
export async function run(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-bench-'));
  try {
    const tile = await sharp({
      create: {
        width: 1000,
        height: 1500,
        channels: 3,
        background: '#777',
        noise: { type: 'gaussian', mean: 128, sigma: 12 },
      },
    })
      .png()
      .toBuffer();
    const photo = await sharp(tile).resize(4000, 6000).jpeg({ quality: 90 }).toBuffer();
    writeFileSync(join(folder, 'a.jpg'), photo);
    const { x, y, w, h } = CROP;
    const frame = `  - photo: a.jpg\n    crop: { x: ${x}, y: ${y}, w: ${w}, h: ${h} }\n`;
    const deliver = 'deliver:\n  web: { aspect: free, long: 2048px, quality: 90, sharpen: false }\n';
    const manifest = join(folder, 'crops.yaml');
    // One photo stands for all: what differs between photos is nothing that either side could use.
    writeFileSync(manifest, `selvedge: 1\nphotos: .\n${deliver}frames:\n${frame.repeat(COUNT / ROUNDS)}`);
    const session = await openSession(manifest);
    const [ours, hand]: [Spent[], Spent[]] = [[], []];
    for (let round = 0; round < ROUNDS; round++) {
      const to = mkdtempSync(join(tmpdir(), 'selvedge-bench-out-'));
      const turns = [
        async () => ours.push(await spentOn(() => renderSession(session, { to: join(to, 'ours') }))),
        async () => hand.push(await spentOn(() => byHand(join(folder, 'a.jpg'), to, COUNT / ROUNDS))),
      ];
      // They take turns in going first.
      for (const turn of round % 2 === 0 ? turns : turns.reverse()) await turn();
      rmSync(to, { recursive: true });
    }
    const peak = process.resourceUsage().maxRSS / 1024;
    return [
      '## Render',
      '',
      `${COUNT} crops of a 24-megapixel JPEG to 2,048 px, on all cores, in ${ROUNDS} rounds; the hand-written loop calls the image`,
      'library directly, and the two take turns.',
      '',
      '| | render | by hand | ratio | goal |',
      '| --- | --- | --- | --- | --- |',
      row('time', ours, hand, ({ seconds }) => seconds),
      row('processor time', ours, hand, ({ processor }) => processor),
      '',
      `Peak memory of the process after rendering: ${Math.round(peak)} MB.`,
      '',
      await manyFrames(),
    ].join('\n');
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function byHand(photo: string, to: string, count: number): Promise<void> {
  await inParallel(
    Array.from({ length: count }, (_, index) => index),
    availableParallelism(),
    async (index) => {
      await sharp(photo)
        .autoOrient()
        .extract({ left: 400, top: 600, width: 3200, height: 4800 })
        .resize(1365, 2048, { fit: 'fill' })
        .withIccProfile('srgb')
        .jpeg({ quality: 90, chromaSubsampling: '4:4:4' })
        .toFile(join(to, `hand-${index}.jpg`));
    },
  );
}

/** In seconds; the processor's are of all cores together. */
interface Spent {
  readonly seconds: number;
  readonly processor: number;
}

async function spentOn(work: () => Promise<unknown>): Promise<Spent> {
  const [began, before] = [performance.now(), process.cpuUsage()];
  await work();
  const { user, system } = process.cpuUsage(before);
  return { seconds: (performance.now() - began) / 1000, processor: (user + system) / 1e6 };
}

function row(name: string, ours: readonly Spent[], hand: readonly Spent[], of: (spent: Spent) => number): string {
  const [first, second] = [sum(ours.map(of)), sum(hand.map(of))];
  const ratios = ours.map((spent, round) => of(spent) / of(hand[round]!));
  const spread = `${Math.min(...ratios).toFixed(2)} – ${Math.max(...ratios).toFixed(2)}`;
  const goal = name === 'time' ? 'at most 1.05' : '–';
  return `| ${name} | ${first.toFixed(1)} s | ${second.toFixed(1)} s | **${(first / second).toFixed(2)}** (${spread}) | ${goal} |`;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

/** What a run costs apart from pixels: thousands of frames of a tiny photo, made, and then found up to date. */
async function manyFrames(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-bench-'));
  const to = mkdtempSync(join(tmpdir(), 'selvedge-bench-out-'));
  try {
    const tiny = sharp({ create: { width: 16, height: 16, channels: 3, background: '#a55' } });
    writeFileSync(join(folder, 'a.jpg'), await tiny.jpeg().toBuffer());
    const manifest = join(folder, 'crops.yaml');
    const deliver = 'deliver:\n  web: { aspect: original, long: 12px }\n';
    writeFileSync(manifest, `selvedge: 1\nphotos: .\n${deliver}frames:\n${'  - photo: a.jpg\n'.repeat(MANY)}`);
    const session = await openSession(manifest);
    const seconds: string[] = [];
    for (const part of ['written', 'upToDate'] as const) {
      const began = performance.now();
      const report = await renderSession(session, { to });
      if (report[part].length !== MANY) throw new Error(`${report[part].length} of ${MANY} files: ${part}`);
      seconds.push(((performance.now() - began) / 1000).toFixed(1));
    }
    return `${MANY} frames of a tiny photo: made in ${seconds[0]!} s; a second run, with nothing to do, takes ${seconds[1]!} s.`;
  } finally {
    for (const each of [folder, to]) rmSync(each, { recursive: true });
  }
}
