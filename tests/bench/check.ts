import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'yaml';
import { checkSession } from '../../src/session/check.ts';
import { LiveSession } from '../../src/session/live-session.ts';
import { openSession, type Session } from '../../src/session/session.ts';
import { generatedSession } from '../scenes/session.ts';

/** Frames of a session, and how often it is measured. */
const CHECKS = [
  [100, 15],
  [1000, 7],
  [10_000, 3],
] as const;
const KEYSTROKES = [
  [1000, 15],
  [10_000, 7],
] as const;

/** Times of one interleaved run, in milliseconds. */
type Times = readonly number[];

/** Times check and keystroke against one parse of the same text by yaml; a Markdown section. */
export async function run(): Promise<string> {
  const checks: string[] = [];
  for (const [frames, repeats] of CHECKS) checks.push(await checkRow(frames, repeats, { hasOutput: false }));
  checks.push(await checkRow(1000, 5, { hasOutput: true }));
  const keystrokes: string[] = [];
  for (const [frames, repeats] of KEYSTROKES) keystrokes.push(await keystrokeRow(frames, repeats));
  return [
    '## Check and keystroke',
    '',
    'Generated sessions, two people in every frame (tests/scenes/session.ts); the photographs are elsewhere. A ratio is to',
    '`yaml.parse` (package `yaml`, its own defaults) of the same manifest in the same run; the two take turns. Median, and',
    '10 % to 90 % of the runs.',
    '',
    'With an output: an album page with bleed for every frame; the crops are random ones, and where one leaves the page no room,',
    'which is so in about a third of the frames, a search finds it another.',
    '',
    '| check, from the two files to all findings | yaml.parse | check | check : yaml.parse | goal |',
    '| --- | --- | --- | --- | --- |',
    ...checks,
    '',
    'One digit of a crop is typed, each time in another frame.',
    '',
    '| keystroke | yaml.parse | that frame’s findings | : yaml.parse | everything found | : yaml.parse | goal |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...keystrokes,
    '',
  ].join('\n');
}

interface Outputs {
  readonly hasOutput: boolean;
}

async function checkRow(frames: number, repeats: number, outputs: Outputs): Promise<string> {
  return withSession(frames, outputs, async (path, text) => {
    const ours: number[] = [];
    const yaml: number[] = [];
    const once = async (): Promise<void> => {
      yaml.push(await timed(() => parse(text) as unknown));
      ours.push(await timed(async () => checkSession(await openSession(path))));
    };
    await once();
    ours.length = yaml.length = 0;
    for (let repeat = 0; repeat < repeats; repeat++) await once();
    const [kind, goal] = outputs.hasOutput ? [', with an output', '–'] : ['', 'at most 2'];
    return row([`${frames} frames${kind}`, milliseconds(yaml), milliseconds(ours), ratios(ours, yaml), goal]);
  });
}

async function keystrokeRow(frames: number, repeats: number): Promise<string> {
  return withSession(frames, { hasOutput: true }, async (path, text) => {
    const live = await openLive(path);
    const one: number[] = [];
    const all: number[] = [];
    const yaml: number[] = [];
    for (let repeat = -1; repeat < repeats; repeat++) {
      const { crop } = live.session.manifest.frames[Math.floor(((repeat + 1.5) * frames) / (repeats + 1))]!;
      const { end } = crop!.value.members.w.range;
      const times = [
        await timed(() => parse(text) as unknown),
        await timed(() => live.frameFindings(live.edit({ start: end - 1, end, text: String(1 + (repeat & 7)) })!)),
        await timed(() => [
          live.sessionFindings(),
          ...Array.from({ length: frames }, (_, at) => live.frameFindings(at)),
        ]),
      ] as const;
      // The first turn warms up.
      if (repeat < 0) continue;
      yaml.push(times[0]);
      one.push(times[1]);
      all.push(times[1] + times[2]);
    }
    const goal = frames === 1000 ? 'under 0.25' : 'grows slower than the session';
    return row([
      `${frames} frames`,
      milliseconds(yaml),
      milliseconds(one),
      ratios(one, yaml, 4),
      milliseconds(all),
      ratios(all, yaml, 4),
      goal,
    ]);
  });
}

async function openLive(path: string): Promise<LiveSession> {
  const session: Session = await openSession(path);
  const live = new LiveSession(session, new Map());
  await live.check();
  return live;
}

async function withSession<T>(
  frames: number,
  outputs: Outputs,
  work: (path: string, text: string) => Promise<T>,
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'selvedge-bench-'));
  try {
    const { manifest, people } = generatedSession(frames, outputs);
    const path = join(folder, 'crops.yaml');
    await writeFile(path, manifest);
    await writeFile(join(folder, 'crops.people.jsonl'), people);
    return await work(path, manifest);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function timed(work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

function at(values: Times, share: number): number {
  return [...values].sort((one, other) => one - other)[Math.round(share * (values.length - 1))]!;
}

function milliseconds(values: Times): string {
  const median = at(values, 0.5);
  return `${median.toFixed(median < 10 ? 2 : 0)} ms`;
}

/** Each run's own ratio: what slows the machine for a while slows both. */
function ratios(ours: Times, yaml: Times, decimals = 2): string {
  const each = ours.map((time, turn) => time / yaml[turn]!);
  const [low, median, high] = [0.1, 0.5, 0.9].map((share) => at(each, share).toFixed(decimals));
  return `**${median!}** (${low!} – ${high!})`;
}
