import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { formatPeopleFile, EMPTY_PEOPLE_FILE } from '../../src/people/people-file.ts';
import type { PhotoPeople } from '../../src/people/person.ts';
import { PHOTO, standing } from '../../src/people/testing/standing.ts';
import { checkJson, CLEAN, folderWith, selvedge } from './workspace.ts';

/** A session of one photo that leans; `more` stands behind the photo's name. */
function leaningSession(degrees: number, more: string, headTop = 1500): string {
  const photo: PhotoPeople = {
    photo: 'a.jpg',
    size: PHOTO,
    people: [standing({ headTop, toes: true })],
    tilt: { degrees, confidence: 0.9 },
    horizon: { y: 0.4, confidence: 0.9 },
  };
  const rules = 'rules: { horizon: off }\n';
  return folderWith({
    'crops.yaml': `selvedge: 1\naspect: free\ncompose: free\n${rules}frames:\n  - photo: a.jpg # the first\n${more}`,
    'crops.people.jsonl': formatPeopleFile(EMPTY_PEOPLE_FILE, [photo]),
  });
}

function read(folder: string): string {
  return readFileSync(join(folder, 'crops.yaml'), 'utf8');
}

test('a fix leaves the straightening alone unless tilt is asked for by name', async () => {
  const folder = leaningSession(-2, `    crop: ${CLEAN}\n`);
  const path = join(folder, 'crops.yaml');
  const before = read(folder);
  expect((await selvedge('fix', path)).code).toBe(0);
  expect(read(folder)).toBe(before);
  const fixed = await selvedge('fix', '--rule', 'tilt', '--in-full', path);
  expect(fixed).toMatchObject({ code: 0 });
  expect(fixed.out).toContain('straighten 0 → -2');
  expect(read(folder)).toContain('photo: a.jpg # the first\n');
  expect(read(folder)).toContain('straighten: -2\n');
  expect((await checkJson(path)).report.manifests[0]!.frames[0]!.findings).toEqual([]);
  const after = read(folder);
  expect((await selvedge('fix', '--rule', 'tilt', path)).code).toBe(0);
  expect(read(folder)).toBe(after);
});

test('an output’s own crop that comes out of the turned photo needs somebody, whatever rule was asked for', async () => {
  const folder = leaningSession(-2, `    crop: ${CLEAN}\n    deliver: { album: { x: 0, y: 0, w: 1, h: 1 } }\n`);
  const path = join(folder, 'crops.yaml');
  writeFileSync(path, `deliver: { album: { aspect: free } }\n${read(folder)}`);
  const { out } = await selvedge('fix', '--rule', 'tilt', path);
  expect(out).toContain('Needs you: 1 frame');
  expect(out).toContain('[outside-photo]');
  expect(read(folder)).toContain('straighten: -2\n');
});

test('JSON has value, limit, and the fix with its straightening', async () => {
  const folder = leaningSession(1.5, `    crop: ${CLEAN}\n`);
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  const [finding] = report.manifests[0]!.frames[0]!.findings;
  expect(finding).toMatchObject({ rule: 'tilt', severity: 'info', value: 1.5, limit: 0.5 });
  expect(finding!.fixes).toMatchObject([{ straighten: 1.5 }]);
});

test('what is final, or allowed, is not levelled', async () => {
  for (const more of ['    final: true\n', '    allow: { tilt: "the jetty slopes" }\n']) {
    const folder = leaningSession(-2, `    crop: ${CLEAN}\n${more}`);
    const before = read(folder);
    await selvedge('fix', '--rule', 'tilt', join(folder, 'crops.yaml'));
    expect(read(folder)).toBe(before);
  }
});

test('where the feet no longer fit, levelling comes in tighter', async () => {
  const folder = leaningSession(3, '    crop: { x: 0.1, y: 0.25, w: 0.8, h: 0.75 }\n', 1850);
  const path = join(folder, 'crops.yaml');
  expect((await selvedge('fix', '--rule', 'tilt', path)).code).toBe(0);
  const { report } = await checkJson(path);
  expect(report.manifests[0]!.frames[0]).toMatchObject({ straighten: 3, length: 'three-quarter', findings: [] });
});

test('straighten-cost stands beside its finding; asked for by name, it is mended by a crop where one is clean', async () => {
  const crop = '    crop: { x: 0.0375, y: 0.24, w: 0.925, h: 0.7435 }\n    straighten: -3\n';
  const folder = leaningSession(-3, crop, 1815);
  const path = join(folder, 'crops.yaml');
  const { report } = await checkJson('--rule', 'straighten-cost', path);
  const related = report.manifests[0]!.frames[0]!.findings.flatMap((finding) => finding.related ?? []);
  expect(related).toMatchObject([{ rule: 'straighten-cost' }]);
  const shown = await selvedge('check', path);
  expect(shown.out).toContain('[straighten-cost]');
  expect((await selvedge('fix', '--rule', 'straighten-cost', path)).code).toBe(0);
  expect(read(folder)).toContain('straighten: -3\n');
  expect((await selvedge('check', '--rule', 'straighten-cost', path)).code).toBe(0);
});
