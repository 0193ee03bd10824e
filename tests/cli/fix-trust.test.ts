import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { standing } from '../../src/people/testing/standing.ts';
import { CLEAN, folderWith, HEAD, KNEES, measuredSession, peopleFile, picture, selvedge } from './workspace.ts';

function read(folder: string): string {
  return readFileSync(join(folder, 'crops.yaml'), 'utf8');
}

test('a photo that changed since it was measured, or is not there, keeps its crop; the sound one is fixed', async () => {
  const jpeg = await picture();
  const digest = `sha256:${createHash('sha256').update(jpeg).digest('hex')}`;
  const frame = (name: string): string => `  - photo: ${name}.jpg\n    crop: ${KNEES}\n`;
  const folder = folderWith({
    'crops.yaml': HEAD + frame('changed') + frame('gone') + frame('same'),
    'crops.people.jsonl':
      peopleFile({ 'gone.jpg': 'standing', 'same.jpg': 'standing' }, digest) +
      peopleFile({ 'changed.jpg': 'standing' }, `sha256:${'0'.repeat(64)}`),
    'changed.jpg': jpeg,
    'same.jpg': jpeg,
  });
  const { code, out } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(out).toContain('changed 1 frame');
  expect(out).toContain('changed.jpg has changed since its people were measured');
  expect(out).toContain('gone.jpg is not there');
  expect(out).toContain('Its crop is left as it is until then: 2 findings about it.');
  expect(read(folder).startsWith(HEAD + frame('changed') + frame('gone'))).toBe(true);
  expect(read(folder)).not.toContain(frame('same'));
});

test.each([
  ['a shape that cannot be read', 'aspect: 2x3', 'aspect is "2x3"'],
  ['a misspelt key', 'lenght: close-up', '"lenght" is not a key'],
  ['subjects that name nobody', 'subjects: [7]', 'subjects names 7'],
  ['an allow without a reason', 'allow: { hand-cut: "" }', 'needs a reason'],
  ['an allow that is a list', 'allow: [hand-cut]', 'allow cannot be a list'],
  ['a misspelt allow', 'allow: { hand-cutt: "a reason" }', 'There is no rule "hand-cutt"'],
  ['a length that does not exist', 'length: knees', 'length is "knees"'],
  ['an unreadable final', 'final: perhaps', 'final is "perhaps"'],
])('a frame with %s is not touched, and the reason stands under "Needs you"', async (_, line, says) => {
  const entry = `  - photo: a.jpg\n    crop: ${KNEES}\n    ${line}\n`;
  const folder = measuredSession(`${HEAD}${entry}  - photo: b.jpg\n    crop: ${KNEES}\n`, ['a.jpg', 'b.jpg']);
  const { code, out } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(out).toContain('changed 1 frame');
  expect(out.slice(out.indexOf('Needs you: 1 frame'))).toContain(says);
  expect(read(folder).startsWith(HEAD + entry)).toBe(true);
});

test.each([
  ['a version of a later program', HEAD.replace('selvedge: 1', 'selvedge: 2'), 'selvedge is 2'],
  ['no version', HEAD.replace('selvedge: 1\n', ''), 'selvedge is missing'],
  ['a shape that cannot be read', HEAD.replace('aspect: free', 'aspect: 2x3'), 'aspect is "2x3"'],
  ['a misspelt key', HEAD.replace('aspect: free', 'apsect: free'), '"apsect" is not a key'],
  ['a shape whose quote is open', HEAD.replace('aspect: free', 'aspect: "2:3'), 'the closing quote is missing'],
  ['a key without a space', HEAD.replace('aspect: free', 'aspect:free'), 'write "aspect: free"'],
])('nothing is fixed in a manifest with %s over all frames', async (_, head, says) => {
  const manifest = `${head}  - photo: a.jpg\n    crop: ${KNEES}\n`;
  const folder = measuredSession(manifest);
  const { code, out } = await selvedge('fix', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(out).toContain('changed 0 frames');
  expect(out).toContain(says);
  expect(out).toContain('No frame is changed before this is mended (1 frame waits).');
  expect(read(folder)).toBe(manifest);
});

test('nothing is fixed while a merge is unfinished: nobody has chosen between the two crops yet', async () => {
  const [ours, theirs] = [KNEES, KNEES.replace('0.5373', '0.53')];
  const manifest =
    `${HEAD}<<<<<<< HEAD\n  - photo: a.jpg\n    crop: ${ours}\n=======\n  - photo: a.jpg\n    crop: ${theirs}\n` +
    `>>>>>>> main\n  - photo: b.jpg\n    crop: ${KNEES}\n`;
  const folder = measuredSession(manifest, ['a.jpg', 'b.jpg']);
  const path = join(folder, 'crops.yaml');
  const { code, out } = await selvedge('fix', path);
  expect(code).toBe(1);
  expect(out).toContain('changed 0 frames');
  expect(out).toContain(`${path}:5:1  error  Broken YAML: a merge was not finished here: keep one version, and delete`);
  expect(out).toContain('No frame is changed before this is mended (3 frames wait).');
  expect(read(folder)).toBe(manifest);
});

test('other faults over the frames stop none of them', async () => {
  const head = HEAD.replace('frames:', 'client: Bakery\nsesion: x\nrules: [joint-cut]\nframes:');
  const folder = measuredSession(`${head}  - photo: a.jpg\n    crop: ${KNEES}\n`);
  expect((await selvedge('fix', join(folder, 'crops.yaml'))).out).toContain('changed 1 frame');
  expect(read(folder)).not.toContain(KNEES);
});

test('what needs you stands at its place in the manifest as it is after the fix', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n  - photo: b.jpg\n    aspect: 2x3\n  - phto: c.jpg\n`, [
    'a.jpg',
    'b.jpg',
  ]);
  const path = join(folder, 'crops.yaml');
  const before = await selvedge('fix', '--dry-run', path);
  const { out } = await selvedge('fix', path);
  const lines = read(folder).split('\n');
  expect(lines[5]).toContain('crop: ');
  expect(before.out).toContain(`b.jpg  ${path}:7:13  error  aspect is "2x3"`);
  expect(out).toContain(`b.jpg  ${path}:8:13  error  aspect is "2x3"`);
  expect(out).toContain(`${path}:9:5  error  photo is missing`);
  expect(lines[8]).toBe('  - phto: c.jpg');
});

test('one line a frame, with --in-full the whole sentences and the numbers', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n`);
  const short = (await selvedge('fix', '--dry-run', join(folder, 'crops.yaml'))).out;
  expect(short).toMatch(/^.*\n.*percent of the photo’s diagonal.*\n {2}a\.jpg {2}moved +[\d.]+ % {2}joint-cut ×2\n\n/);
  const full = (await selvedge('fix', '--dry-run', '--in-full', join(folder, 'crops.yaml'))).out;
  expect(full).toContain('no longer: The lower edge cuts the left knee of person 1');
  expect(full).toContain(`crop ${KNEES} → { x: `);
});

test('many frames with one trouble take one line', async () => {
  const names = Array.from({ length: 12 }, (_, index) => `${index}.jpg`);
  const folder = measuredSession(HEAD + names.map((name) => `  - photo: ${name}\n`).join(''), []);
  const jpeg = await picture();
  for (const name of names) writeFileSync(join(folder, name), jpeg);
  const path = join(folder, 'crops.yaml');
  const { out } = await selvedge('fix', path);
  expect(out).toContain(`12 frames left as they are. Run: selvedge measure ${path}`);
  expect(out).toContain(`    ${names.join(', ')}\n`);
  expect(out.split('\n').length).toBeLessThan(8);
  expect((await selvedge('fix', '--in-full', path)).out).toContain('measured the people in 11.jpg yet');
});

test('frames that are left for one reason stand under it, their names in lines of one width; photos in trouble last', async () => {
  const names = Array.from({ length: 40 }, (_, index) => `photo-${index}.jpg`);
  const entries = [...names, 'gone.jpg'].map((name) => `  - photo: ${name}\n`);
  const people = Object.fromEntries(names.map((name, index) => [name, [standing({ headTop: 2600 + index })]]));
  const jpeg = await picture();
  const folder = folderWith({
    'crops.yaml': `selvedge: 1\nrules: { joint-cut: { thighFrom: 99, thighTo: 100, shinFrom: 0, shinTo: 1, torsoTo: 44 } }\nframes:\n${entries.join('')}`,
    'crops.people.jsonl': peopleFile(people),
    ...Object.fromEntries(names.map((name) => [name, jpeg])),
  });
  const { out } = await selvedge('fix', '--dry-run', join(folder, 'crops.yaml'));
  const left = out.slice(out.indexOf('Needs you: 41 frames'));
  const lines = left.split('\n');
  expect(lines.filter((line) => line.includes('because')).length).toBeLessThan(8);
  expect(lines.length).toBeLessThan(30);
  for (const name of names) expect(left).toMatch(new RegExp(`^ +(.*, )?${name}(,|$)`, 'm'));
  for (const line of lines.filter((text) => /^ +photo-/.test(text))) expect(line.length).toBeLessThanOrEqual(100);
  expect(left.indexOf('gone.jpg')).toBeGreaterThan(left.indexOf('photo-39.jpg'));
});

test('prints with too few pixels are told once, after the crops', async () => {
  const shapes = { 'a.jpg': 'original', 'b.jpg': '"4:5"', 'c.jpg': 'original' };
  const jpeg = await picture();
  const frames = Object.entries(shapes).map(([name, aspect]) => `  - { photo: ${name}, aspect: ${aspect} }\n`);
  const folder = folderWith({
    'crops.yaml':
      'selvedge: 1\nrules:\n  joint-cut: { thighFrom: 99, thighTo: 100, shinFrom: 0, shinTo: 1, torsoTo: 44 }\n' +
      `  print-resolution: { small: 1200 }\ndeliver: { print: { paper: 10x15cm } }\nframes:\n${frames.join('')}`,
    'crops.people.jsonl': peopleFile({
      'a.jpg': [standing({})],
      'b.jpg': [standing({})],
      'c.jpg': [standing({ headTop: 2600 })],
    }),
    ...Object.fromEntries(Object.keys(shapes).map((name) => [name, jpeg])),
  });
  const { out } = await selvedge('fix', '--dry-run', join(folder, 'crops.yaml'));
  const left = out.slice(out.indexOf('Needs you: 3 frames'));
  expect(left.match(/pixels per inch/g)).toHaveLength(1);
  expect(left).toMatch(/gives \d{3} to \d{3} pixels per inch/);
  expect(left.indexOf('a.jpg, b.jpg')).toBeGreaterThan(left.indexOf('joint-cut'));
});

test('several rules are repaired together, the others are left', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n    crop: { x: 0.2, y: 0.05, w: 0.6, h: 0.6873 }\n`);
  const path = join(folder, 'crops.yaml');
  const { code } = await selvedge('fix', '--rule', 'joint-cut', '--rule', 'headroom', path);
  expect(code).toBe(0);
  expect((await selvedge('check', path)).code).toBe(0);
  expect(read(folder)).not.toContain(CLEAN);
});
