import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { digestsIn, folderWith, HEAD, peopleFile, picture, selvedge } from '../cli/workspace.ts';
import { runChild } from './support/child.ts';
import { hasMachines, Machines } from './support/machines.ts';

/*
 * Shards on an engine that exists: GNU parallel over two SSH servers on the loopback, with the command lines of docs/ci.md.
 * Outside truth: one run on one machine.
 */

const COMMAND_LINE = join(import.meta.dirname, '../../dist/selvedge.js');
const PROOFS = join(import.meta.dirname, '../../sample-workspace/harbour/proofs');

vi.setConfig({ testTimeout: 240_000 });

const isHere = hasMachines();
const title = isHere
  ? 'GNU parallel over two machines'
  : 'GNU parallel over two machines (skipped: needs GNU parallel and an SSH server)';

describe.skipIf(!isHere)(title, () => {
  let machines: Machines;

  beforeAll(async () => {
    machines = await Machines.start(folderWith({}));
  });
  afterAll(() => {
    machines.close();
  });

  /** Runs the command for the shards 1 to 4. */
  async function inShards(options: readonly string[], argv: readonly string[]): Promise<number | null> {
    const words = [process.execPath, COMMAND_LINE, ...argv].map((word) => `'${word}'`).join(' ');
    const given = ['--will-cite', '--sshloginfile', machines.loginFile, '--retries', '2', ...options];
    const env = { ...process.env, PARALLEL_HOME: folderWith({}) };
    const child = spawn('parallel', [...given, `${words} --shard {}/4`, ':::', '1', '2', '3', '4'], { env, stdio: ['ignore', 'ignore', 'inherit'] }); // prettier-ignore
    return new Promise((resolve) => child.once('close', resolve));
  }

  test('measure writes the people file of one run', async () => {
    const names = ['boardwalk-01', 'boardwalk-04', 'studio-01', 'studio-03'].map((name) => `${name}.jpg`);
    const small = (name: string): Promise<Buffer> => sharp(join(PROOFS, name)).resize({ height: 160 }).jpeg().toBuffer(); // prettier-ignore
    const photos = Object.fromEntries(await Promise.all(names.map(async (name) => [name, await small(name)] as const)));
    const text = HEAD + names.map((name) => `  - photo: ${name}\n`).join('');
    const [whole, shared] = [0, 1].map(() => folderWith({ ...photos, 'crops.yaml': text }));
    expect((await runChild(['measure', whole!])).code).toBe(0);
    expect(await inShards([], ['measure', '--workers', '1', shared!])).toBe(0);
    const read = (folder: string): string => readFileSync(join(folder, 'crops.people.jsonl'), 'utf8');
    expect(read(shared!)).toBe(read(whole!));
  });

  test('the parts of check merge to what one check prints', async () => {
    const names = ['a', 'b', 'c', 'd', 'e'].map((name) => `${name}.jpg`);
    const people = peopleFile(Object.fromEntries(names.map((name) => [name, 'standing'] as const)));
    const text =
      HEAD + names.map((name) => `  - photo: ${name}\n    crop: { x: 0.2, y: 0.2, w: 0.6, h: 0.5373 }\n`).join('');
    const folder = folderWith({ 'crops.yaml': text, 'crops.people.jsonl': people });
    const parts = join(folderWith({}), 'shards');
    await inShards(['--results', `${parts}/{}`], ['check', folder, '--format', 'json']);
    const files = [1, 2, 3, 4].map((number) => join(parts, `${number}`));
    const merged = await selvedge('merge', ...files);
    expect(merged.err).toBe('');
    expect(merged.out).toBe((await selvedge('check', '--format', 'json', folder)).out);
  });

  test('render makes the files of one run, also when a machine is lost on the way and comes no more', async () => {
    const names = Array.from({ length: 8 }, (_, index) => `p${index}.jpg`);
    const photos = Object.fromEntries(await Promise.all(names.map(async (name) => [name, await picture(300, 200)] as const))); // prettier-ignore
    const entries = names.map((name) => `  - photo: ${name}\n`).join('');
    const text = `selvedge: 1\ndeliver:\n  web: { aspect: original, long: 120px }\nframes:\n${entries}`;
    const folder = folderWith({ ...photos, 'crops.yaml': text });
    const [whole, shared, less] = ['whole', 'shared', 'less'].map((name) => join(folderWith({}), name));
    expect((await runChild(['render', folder, '--to', whole!])).code).toBe(0);
    expect(await inShards([], ['render', folder, '--to', shared!])).toBe(0);
    expect(Object.keys(digestsIn(whole!, /\.jpg$/))).toHaveLength(8);
    expect(digestsIn(shared!, /\.jpg$/)).toEqual(digestsIn(whole!, /\.jpg$/));
    machines.lose(1);
    expect(await inShards(['--retries', '9'], ['render', folder, '--to', less!])).toBe(0);
    expect(digestsIn(less!, /\.jpg$/)).toEqual(digestsIn(whole!, /\.jpg$/));
  });
});
