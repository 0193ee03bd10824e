import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { correctPhoto, takeBack } from './correct-photo.ts';

const PHOTO = { photo: 'b.jpg', size: { width: 4000, height: 6000 } };
const OTHER = '{"photo":"c.jpg",  "size":[10,20],"people":[]}';
const LINE =
  '{"photo":"b.jpg","size":[4000,6000],"digest":"sha256:1","people":' +
  '[{"id":1,"source":"model","box":[0.3,0.1,0.3,0.8],"points":{"left_knee":[0.4,0.7,0.6]}}],"by":"x 1"}';
const MOVE = { kind: 'place', person: 1, place: 'left_knee', at: { x: 0.42, y: 0.71 } } as const;

function fileWith(...lines: string[]): string {
  const path = join(mkdtempSync(join(tmpdir(), 'selvedge-correct-')), 'crops.people.jsonl');
  if (lines.length > 0) writeFileSync(path, lines.map((line) => `${line}\n`).join(''));
  return path;
}
const linesOf = (path: string): string[] => readFileSync(path, 'utf8').trimEnd().split('\n');

it('changes one line, keeps the others, and takes it back to the very characters', async () => {
  const path = fileWith(OTHER, LINE, 'no line at all');
  const written = await correctPhoto(path, PHOTO, MOVE);
  expect(linesOf(path)).toEqual([
    LINE.replace('"model"', '"hand"').replace('[0.4,0.7,0.6]', '[0.42,0.71,1]'),
    OTHER,
    'no line at all',
  ]);
  expect(await takeBack(path, written!)).toBe(true);
  expect(linesOf(path)).toEqual([LINE, OTHER, 'no line at all']);
});

it('begins a file, and a line, for a photo that nobody has measured', async () => {
  const path = fileWith();
  const places = { head_top: { x: 0.5, y: 0.1 }, left_hip: { x: 0.55, y: 0.5 }, right_hip: { x: 0.45, y: 0.5 } };
  const written = await correctPhoto(path, PHOTO, { kind: 'add', places });
  expect(linesOf(path)).toHaveLength(1);
  expect(readFileSync(path, 'utf8')).toContain('"source":"hand"');
  expect(await takeBack(path, written!)).toBe(true);
  expect(readFileSync(path, 'utf8')).toBe('');
});

it('keeps what others write between two corrections, and takes back only what is still as it was written', async () => {
  const path = fileWith(OTHER, LINE);
  const first = await correctPhoto(path, PHOTO, MOVE);
  writeFileSync(path, `${readFileSync(path, 'utf8')}{"photo":"d.jpg","size":[1,1],"people":[]}\n`);
  await correctPhoto(path, PHOTO, { ...MOVE, place: 'right_knee' });
  const text = readFileSync(path, 'utf8');
  for (const kept of ['"left_knee":[0.42', '"right_knee":[0.42', 'd.jpg', 'c.jpg']) expect(text).toContain(kept);
  expect(await takeBack(path, first!)).toBe(false);
  expect(readFileSync(path, 'utf8')).toBe(text);
});

it('a person who is not there is no correction, and nothing is written', async () => {
  const path = fileWith(LINE);
  expect(await correctPhoto(path, PHOTO, { kind: 'remove', person: 7 })).toBeUndefined();
  expect(linesOf(path)).toEqual([LINE]);
});

it('a file that cannot be read is left alone', async () => {
  const path = fileWith();
  const broken = Buffer.from([0xff, 0xfe, 0x00]);
  writeFileSync(path, broken);
  await expect(correctPhoto(path, PHOTO, MOVE)).rejects.toThrow('is not UTF-8');
  expect(readFileSync(path).equals(broken)).toBe(true);
});
