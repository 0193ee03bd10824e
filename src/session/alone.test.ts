import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { alone } from './alone.ts';

function fileOf(text: string): string {
  const path = join(mkdtempSync(join(tmpdir(), 'selvedge-alone-')), 'numbers');
  writeFileSync(path, text);
  return path;
}

test('of many that add at once none takes away what another one added', async () => {
  const path = fileOf('');
  const add = async (number: number): Promise<void> => {
    const before = await readFile(path, 'utf8');
    await sleep(Math.random() * 5);
    await writeFile(path, `${before}${number}\n`);
  };
  const numbers = Array.from({ length: 30 }, (_, index) => index);
  await Promise.all(numbers.map((number) => alone(path, () => add(number))));
  const lines = readFileSync(path, 'utf8').trimEnd().split('\n').map(Number);
  expect(lines.sort((first, second) => first - second)).toEqual(numbers);
  expect(existsSync(`${path}.0`)).toBe(false);
});

test('the lock is given back when the work fails, and that of a process that was killed holds nobody up', async () => {
  const path = fileOf('');
  const failing = alone(path, () => Promise.reject(new Error('no room')));
  await expect(failing).rejects.toThrow('no room');
  expect(existsSync(`${path}.0`)).toBe(false);
  const { pid } = spawnSync(process.execPath, ['--version']);
  writeFileSync(`${path}.0`, `${hostname()} ${pid}`);
  expect(await alone(path, () => Promise.resolve('done'))).toBe('done');
  expect(existsSync(`${path}.0`)).toBe(false);
});
