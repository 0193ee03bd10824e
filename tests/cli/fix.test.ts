import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { standing } from '../../src/people/testing/standing.ts';
import {
  CLEAN,
  digestsIn,
  folderWith,
  HEAD,
  KNEES,
  measuredSession,
  peopleFile,
  picture,
  selvedge,
} from './workspace.ts';

function read(folder: string): string {
  return readFileSync(join(folder, 'crops.yaml'), 'utf8');
}

/** The text with every crop's numbers taken out. */
function withoutCrops(text: string): string {
  return text.replaceAll(/crop: \{[^}]*\}/g, 'crop');
}

test('a fix changes the numbers of the crop and nothing else; check is clean; a second fix changes nothing', async () => {
  const manifest =
    '# my session\r\nselvedge: 1\r\naspect: free   # any\r\ncompose: free\r\nframes:\r\n' +
    `  - photo: a.jpg\r\n    crop: ${KNEES} # cut at the knees\r\n    note: 'Zoë likes it'\r\n`;
  const folder = measuredSession(manifest);
  const path = join(folder, 'crops.yaml');
  const first = await selvedge('fix', path);
  expect(first.code).toBe(0);
  expect(first.out).toContain('changed 1 frame');
  expect(first.out).toContain('Nothing needs you.');
  const fixed = read(folder);
  expect(fixed).not.toBe(manifest);
  expect(withoutCrops(fixed)).toBe(withoutCrops(manifest));
  expect((await selvedge('check', path)).code).toBe(0);
  const second = await selvedge('fix', path);
  expect(second.code).toBe(0);
  expect(second.out).toContain('changed 0 frames');
  expect(read(folder)).toBe(fixed);
});

test('--dry-run says the same and writes nothing', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n`);
  const before = digestsIn(folder);
  const { code, out } = await selvedge('fix', '--dry-run', join(folder, 'crops.yaml'));
  expect(code).toBe(0);
  expect(out).toContain('would change 1 frame');
  expect(digestsIn(folder)).toEqual(before);
});

test('final frames and clean frames stay; a frame without crop gets a line of its own', async () => {
  const folder = measuredSession(
    `${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n    final: true\n  - photo: b.jpg\n    crop: ${CLEAN}\n  - photo: c.jpg\n`,
    ['a.jpg', 'b.jpg', 'c.jpg'],
  );
  const { code } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(code).toBe(0);
  const text = read(folder);
  expect(text).toContain(
    `  - photo: a.jpg\n    crop: ${KNEES}\n    final: true\n  - photo: b.jpg\n    crop: ${CLEAN}\n`,
  );
  expect(text).toMatch(/ {2}- photo: c\.jpg\n {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}\n$/);
});

test('--frame fixes one frame, the second of a photo by its number; an unknown one is exit 2', async () => {
  const manifest = `${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n  - photo: a.jpg\n    crop: ${KNEES}\n`;
  const folder = measuredSession(manifest);
  const path = join(folder, 'crops.yaml');
  expect((await selvedge('fix', '--frame', 'a.jpg#2', path)).code).toBe(0);
  expect(read(folder).startsWith(manifest.slice(0, manifest.lastIndexOf('crop')))).toBe(true);
  expect(read(folder)).not.toBe(manifest);
  const unknown = await selvedge('fix', '--frame', 'b.jpg', path);
  expect(unknown.code).toBe(2);
  expect(unknown.err).toContain('has no frame "b.jpg"');
});

test('a fix says when a frame shows another length', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n    length: three-quarter\n`);
  const { out } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(out).toMatch(/a\.jpg {2}moved .* length; from full length to three-quarter length\n/);
});

test('--frame over several manifests fixes where the frame is', async () => {
  const without = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n`);
  const having = measuredSession(`${HEAD}  - photo: b.jpg\n    crop: ${KNEES}\n`, ['b.jpg']);
  const paths = [without, having].map((folder) => join(folder, 'crops.yaml'));
  const { code, err } = await selvedge('fix', '--frame', 'b.jpg', ...paths);
  expect(err).toBe('');
  expect(code).toBe(0);
  expect(read(without)).toContain(KNEES);
  expect(read(having)).not.toContain(KNEES);
});

test('--rule repairs only what that rule says, and makes nothing else worse', async () => {
  // Knees cut below, and nearly a third of the picture is empty over the head.
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: { x: 0.2, y: 0.05, w: 0.6, h: 0.6873 }\n`);
  const path = join(folder, 'crops.yaml');
  await selvedge('fix', '--rule', 'joint-cut', path);
  expect((await selvedge('check', '--rule', 'joint-cut', path)).code).toBe(0);
  expect((await selvedge('check', '--rule', 'headroom', path)).code).toBe(1);
  expect((await selvedge('fix', '--rule', 'no-such-rule', path)).code).toBe(2);
});

test('at most one length tighter, unless --any-length; what is left says so', async () => {
  // The photo ends in the shins, and the settings leave no fine place down to the middle of the torso.
  const settings = 'joint-cut: { thighFrom: 99, thighTo: 100, shinFrom: 0, shinTo: 1, torsoTo: 44 }';
  const manifest = `selvedge: 1\nrules: { ${settings} }\nframes:\n  - photo: a.jpg\n`;
  const people = peopleFile({ 'a.jpg': [standing({ headTop: 2600 })] });
  const folder = folderWith({ 'crops.yaml': manifest, 'crops.people.jsonl': people });
  const path = join(folder, 'crops.yaml');
  const first = await selvedge('fix', path);
  expect(first.code).toBe(1);
  expect(first.out).toContain('Needs you');
  expect(first.out).toMatch(/because .+/);
  expect(first.out).toContain('Clean with --any-length:\n  a.jpg\n');
  const text = read(folder);
  expect((await selvedge('fix', path)).code).toBe(1);
  expect(read(folder)).toBe(text);
  expect((await selvedge('fix', '--any-length', path)).code).toBe(0);
  expect((await selvedge('check', path)).code).toBe(0);
  const clean = read(folder);
  expect((await selvedge('fix', '--any-length', path)).code).toBe(0);
  expect(read(folder)).toBe(clean);
});

test('what no crop can change needs you: a photo that nobody measured', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n  - photo: new.jpg\n`);
  writeFileSync(join(folder, 'new.jpg'), await picture());
  writeFileSync(join(folder, 'a.jpg'), await picture());
  const { code, out } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(out).toContain('changed 0 frames');
  expect(out).toContain('[not-measured]');
});

test('a photo is the same, byte by byte, after check and fix', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n`);
  writeFileSync(join(folder, 'a.jpg'), await picture());
  const before = digestsIn(folder, /\.(jpg|jsonl)$/);
  await selvedge('check', join(folder, 'crops.yaml'));
  await selvedge('fix', join(folder, 'crops.yaml'));
  expect(digestsIn(folder, /\.(jpg|jsonl)$/)).toEqual(before);
});

test('a crop that cannot be read is not fixed: its problem needs you, and its text stays', async () => {
  const manifest = `${HEAD}  - photo: a.jpg\n    crop: { x: 0.2, y: 0.2, w: 0.6, h: tall }\n`;
  const folder = measuredSession(manifest);
  const { code, out } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(out).toContain('[manifest]');
  expect(read(folder)).toBe(manifest);
});
