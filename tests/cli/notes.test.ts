import { cpSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { folderWith, measuredSession, selvedge } from './workspace.ts';

const SAMPLES = join(import.meta.dirname, '../../sample-workspace');

test('the notes of the sample session', async () => {
  const { code, out, err } = await selvedge('notes', join(SAMPLES, 'harbour', 'crops.yaml'));
  expect({ code, err }).toEqual({ code: 0, err: '' });
  await expect(out).toMatchFileSnapshot('golden/harbour-notes.md');
});

test('need no photo, and write nothing', async () => {
  const folder = folderWith({});
  for (const name of ['crops.yaml', 'crops.people.jsonl']) cpSync(join(SAMPLES, 'harbour', name), join(folder, name));
  const here = await selvedge('notes', join(SAMPLES, 'harbour', 'crops.yaml'));
  expect((await selvedge('notes', folder)).out).toBe(here.out);
  expect(readdirSync(folder).sort()).toEqual(['crops.people.jsonl', 'crops.yaml']);
});

test('say when there is too little to say', async () => {
  const folder = measuredSession('selvedge: 1\nframes:\n  - photo: a.jpg\n  - photo: b.jpg\n');
  expect(await selvedge('notes', folder)).toMatchObject({ code: 0, err: '' });
  expect((await selvedge('notes', folder)).out).toContain('From the 1 of 2 photos');
  expect((await selvedge('notes', folder)).out).toContain('too little to speak of habits');
});

test('a bad call says what would be right', async () => {
  expect(await selvedge('notes')).toMatchObject({ code: 2, out: '' });
  expect((await selvedge('notes', join(SAMPLES, 'nowhere.yaml'))).err).toContain('nowhere.yaml');
});
