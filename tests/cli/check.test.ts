import { createHash } from 'node:crypto';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import {
  checkJson,
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

function frame(lines: string): string {
  return `${HEAD}  - photo: a.jpg\n${lines}`;
}

test('a clean session: exit 0, effective values in JSON, one info that no photo is here', async () => {
  const folder = measuredSession(frame(`    crop: ${CLEAN}\n`));
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(0);
  const [manifest] = report.manifests;
  expect(manifest!.findings.map(({ rule, severity }) => `${rule} ${severity}`)).toEqual(['photo-missing info']);
  expect(manifest!.frames).toEqual([
    {
      photo: 'a.jpg',
      index: 0,
      line: 5,
      crop: { x: 0.2, y: 0.2, w: 0.6, h: 0.76 },
      straighten: 0,
      length: 'full-length',
      lengthFrom: 'found',
      findings: [],
    },
  ]);
  expect(report.summary).toEqual({ frames: 1, errors: 0, warnings: 0, infos: 1 });
});

test('a frame without crop has the whole photo', async () => {
  const folder = measuredSession(`${HEAD}  - photo: a.jpg\n`);
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  expect(report.manifests[0]!.frames[0]!['crop']).toEqual({ x: 0, y: 0, w: 1, h: 1 });
});

test('a cut stands on the number that sets the edge, with checked fixes', async () => {
  const folder = measuredSession(frame(`    crop: ${KNEES}\n`));
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  const found = report.manifests[0]!.frames[0]!.findings.filter(({ rule }) => rule === 'joint-cut');
  expect(found.map(({ joint, edge }) => `${String(joint)} ${String(edge)}`)).toEqual([
    'left_knee bottom',
    'right_knee bottom',
  ]);
  expect(found[0]).toMatchObject({ severity: 'warning', line: 6, column: 40, endLine: 6, endColumn: 46, person: 1 });
  expect(found[0]!.fixes?.length).toBeGreaterThan(0);
  const { crop } = found[0]!.fixes![0]!;
  const again = measuredSession(
    frame(`    crop: { x: ${crop['x']!}, y: ${crop['y']!}, w: ${crop['w']!}, h: ${crop['h']!} }\n`),
  );
  expect((await selvedge('check', join(again, 'crops.yaml'))).code).toBe(0);
});

test('text names path, line, column, severity and rule', async () => {
  const folder = measuredSession(frame(`    crop: ${KNEES}\n`));
  const path = join(folder, 'crops.yaml');
  const { out } = await selvedge('check', path);
  expect(out).toContain(`${path}:6:40  warning  The lower edge cuts the left knee of person 1`);
  expect(out).toContain('[joint-cut]');
  expect(out).toContain('1 frame: 0 errors, 2 warnings');
  expect(out).not.toContain('\u001b');
});

test('an allow keeps a finding in JSON with its reason, and it counts nowhere', async () => {
  const allow = 'allow: { joint-cut/left_knee: "under the table", joint-cut/right_knee: "the other one too" }';
  const folder = measuredSession(frame(`    crop: ${KNEES}\n    ${allow}\n`));
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(0);
  expect(report.manifests[0]!.frames[0]!.findings).toMatchObject([
    { rule: 'joint-cut', allowed: 'under the table' },
    { rule: 'joint-cut', allowed: 'the other one too' },
  ]);
  expect(report.summary['warnings']).toBe(0);
  expect((await selvedge('check', join(folder, 'crops.yaml'))).out).not.toContain('[joint-cut]');
});

test('an allow that matches nothing is told on its key, a misspelt one with what was meant', async () => {
  const allow = 'allow: { joint-cut: "no joint is cut here", hand-cutt: "misspelt" }';
  const folder = measuredSession(frame(`    crop: ${CLEAN}\n    ${allow}\n`));
  const { report } = await checkJson(join(folder, 'crops.yaml'), '--rule', 'unused-allow');
  const found = report.manifests[0]!.frames[0]!.findings.filter(({ rule }) => rule === 'unused-allow');
  expect(found.map(({ severity, column }) => [severity, column])).toEqual([
    ['info', 14],
    ['info', 49],
  ]);
  expect(found[1]!.message).toContain('Did you mean hand-cut?');
});

test('a final frame says everything as info', async () => {
  const folder = measuredSession(frame(`    crop: ${KNEES}\n    final: true\n`));
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(0);
  expect(report.manifests[0]!.frames[0]!.findings.map(({ severity }) => severity)).toEqual(['info', 'info']);
});

test('a final frame keeps its errors of file and text: they are not a matter of taste', async () => {
  const folder = measuredSession(
    frame(`    crop: ${KNEES}\n    final: true\n    lenght: close-up\n`) + `  - photo: gone.jpg\n    final: true\n`,
  );
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  const told = report.manifests[0]!.frames.map(({ findings }) =>
    findings.map(({ rule, severity }) => [rule, severity]),
  );
  expect(told).toEqual([
    [
      ['manifest', 'warning'],
      ['joint-cut', 'info'],
      ['joint-cut', 'info'],
    ],
    [['photo-missing', 'error']],
  ]);
});

test('hints are counted in text, by rule, and shown with --hints; JSON has them anyway', async () => {
  const folder = measuredSession(frame(`    crop: ${KNEES}\n    final: true\n`));
  const path = join(folder, 'crops.yaml');
  const short = (await selvedge('check', path)).out;
  expect(short).toContain(`${path}: 2 hints: joint-cut 2; show them with --hints`);
  expect(short).not.toContain('left knee');
  expect(short).toContain('None of the photos is here');
  const long = (await selvedge('check', '--hints', path)).out;
  expect(long).toContain('info  The lower edge cuts the left knee');
  expect(long).not.toContain('show them');
});

test.each([
  ['a misspelt key', 'phto: x.jpg', 'phto'],
  ['no name', 'photo:', 'photo has no value'],
  ['a way out of the folder', 'photo: ../x.jpg', 'relative to the photos folder'],
  ['an absolute path', 'photo: /tmp/x.jpg', 'relative to the photos folder'],
  ['a bare word', 'x.jpg', 'begins with photo'],
  ['no photo', `crop: ${CLEAN}`, 'photo is missing'],
  ['nothing', 'null', 'frame'],
])('a frame that cannot be read (%s) is an error of the session, never silence', async (_, entry, says) => {
  const folder = measuredSession(`${frame(`    crop: ${CLEAN}\n`)}  - ${entry}\n`);
  const path = join(folder, 'crops.yaml');
  const { code, report } = await checkJson(path);
  expect(code).toBe(1);
  const found = report.manifests[0]!.findings.filter(({ rule }) => rule === 'manifest');
  expect(found).toContainEqual(expect.objectContaining({ severity: 'error', line: 7 }));
  expect(found.map(({ message }) => message).join('\n')).toContain(says);
  expect(report.manifests[0]!.frames).toHaveLength(1);
  expect((await selvedge('check', '--rule', 'joint-cut', path)).code).toBe(1);
  const fixed = await selvedge('fix', path);
  expect(fixed.code).toBe(1);
  expect(fixed.out).toContain('Needs you');
  expect(fixed.out).toContain(says);
});

test('--rule may be given several times, and never hides what kept the rules from speaking', async () => {
  // Knees cut below, and much room over the head.
  const cut = `${HEAD}  - photo: a.jpg\n    crop: { x: 0.2, y: 0.05, w: 0.6, h: 0.6873 }\n`;
  const path = join(measuredSession(cut), 'crops.yaml');
  const rulesAsked = async (...argv: string[]): Promise<string[]> => {
    const { report } = await checkJson(...argv, path);
    return [...new Set(report.manifests[0]!.frames[0]!.findings.map(({ rule }) => rule))].sort();
  };
  expect(await rulesAsked('--rule', 'joint-cut')).toEqual(['joint-cut']);
  expect(await rulesAsked('--rule', 'joint-cut', '--rule', 'headroom')).toEqual(['headroom', 'joint-cut']);
  const folder = measuredSession(
    `${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n  - photo: new.jpg\n  - photo: gone.jpg\n`,
  );
  writeFileSync(join(folder, 'a.jpg'), await picture());
  writeFileSync(join(folder, 'new.jpg'), await picture());
  const { code, report } = await checkJson('--rule', 'aspect', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(report.manifests[0]!.frames.flatMap(({ findings }) => findings.map(({ rule }) => rule))).toEqual([
    'not-measured',
    'photo-missing',
  ]);
});

test('a photo that is not there: the likely file is named, when no other frame uses it', async () => {
  const folder = measuredSession(
    `${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n  - photo: pier.jpg\n  - photo: A.JPG\n  - photo: 0142.jpg\n`,
  );
  for (const name of ['a.jpg', 'Pier.JPG', '0143.jpg']) writeFileSync(join(folder, name), await picture());
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  const messages = report.manifests[0]!.frames.map(({ findings }) => findings[0]?.message ?? '');
  expect(messages[1]).toContain('Did you mean Pier.JPG?');
  expect(messages[2]).not.toContain('Did you mean');
  expect(messages[3]).not.toContain('Did you mean');
});

test('an entry of a list is named so that a person understands', async () => {
  const folder = measuredSession(frame(`    crop: ${CLEAN}\n    subjects: [1, 0]\n`));
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  expect(report.manifests[0]!.frames[0]!.findings[0]!.message).toMatch(/^The second entry of subjects is 0: /);
});

test('warnings pass up to --max-warnings, errors never do', async () => {
  const path = join(measuredSession(frame(`    crop: ${KNEES}\n`)), 'crops.yaml');
  expect((await selvedge('check', '--max-warnings', '1', path)).code).toBe(1);
  expect((await selvedge('check', '--max-warnings', '2', path)).code).toBe(0);
  const outside = join(measuredSession(frame('    crop: { x: 0.6, y: 0.2, w: 0.6, h: 0.76 }\n')), 'crops.yaml');
  expect((await selvedge('check', '--max-warnings', '99', '--rule', 'outside-photo', outside)).code).toBe(1);
});

test('the manifest sets severities, of file findings too', async () => {
  const rules = 'rules: { joint-cut: error, photo-missing: off, eye-line: { severity: warning } }\n';
  const folder = measuredSession(HEAD.replace('frames:', `${rules}frames:`) + `  - photo: a.jpg\n    crop: ${KNEES}\n`);
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  expect(report.manifests[0]!.findings).toEqual([]);
  expect(report.summary['errors']).toBe(2);
});

test('two manifests, one summary', async () => {
  const clean = join(measuredSession(frame(`    crop: ${CLEAN}\n`)), 'crops.yaml');
  const cut = join(measuredSession(frame(`    crop: ${KNEES}\n`)), 'crops.yaml');
  const { code, report } = await checkJson(clean, cut);
  expect(code).toBe(1);
  expect(report.manifests).toHaveLength(2);
  expect(report.summary).toMatchObject({ frames: 2, warnings: 2 });
});

test('photos: missing, not a picture, not measured, changed; each on its frame', async () => {
  const jpeg = await picture();
  const digest = `sha256:${createHash('sha256').update(jpeg).digest('hex')}`;
  const names = ['gone', 'text', 'new', 'same', 'changed'];
  const folder = folderWith({
    'crops.yaml': HEAD + names.map((name) => `  - photo: ${name}.jpg\n    crop: ${CLEAN}\n`).join(''),
    'crops.people.jsonl':
      peopleFile({ 'gone.jpg': 'standing', 'text.jpg': 'standing', 'same.jpg': 'standing' }, digest) +
      peopleFile({ 'changed.jpg': 'standing' }, `sha256:${'0'.repeat(64)}`),
    'text.jpg': 'This is a shopping list.',
    'new.jpg': jpeg,
    'same.jpg': jpeg,
    'changed.jpg': jpeg,
  });
  const before = digestsIn(folder);
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  const told = report.manifests[0]!.frames.map(({ findings }) =>
    findings.map(({ rule, severity, line }) => [rule, severity, line]),
  );
  expect(told).toEqual([
    [['photo-missing', 'error', 5]],
    [['photo-missing', 'error', 7]],
    [['not-measured', 'warning', 9]],
    [],
    [['stale-measure', 'warning', 13]],
  ]);
  expect(report.manifests[0]!.findings).toEqual([]);
  expect(digestsIn(folder)).toEqual(before);
});

test('a manifest reads nothing outside its folder, by name or by link, unless --photos says so', async () => {
  const elsewhere = folderWith({ 'a.jpg': await picture() });
  const manifest = frame(`    crop: ${CLEAN}\n`);
  for (const photos of ['..', '../elsewhere', elsewhere, 'C:\\pictures', 'link']) {
    const folder = measuredSession(`photos: ${JSON.stringify(photos)}\n${manifest}`);
    symlinkSync(elsewhere, join(folder, 'link'));
    const { code, report } = await checkJson(join(folder, 'crops.yaml'));
    expect(code).toBe(1);
    expect(report.manifests[0]!.findings).toMatchObject([{ rule: 'manifest', severity: 'error', line: 1, column: 9 }]);
    expect(report.manifests[0]!.findings[0]!.message).toContain('--photos');
  }
  const folder = measuredSession(`photos: proofs\n${manifest}`);
  mkdirSync(join(folder, 'proofs'));
  symlinkSync(join(elsewhere, 'a.jpg'), join(folder, 'proofs', 'a.jpg'));
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  expect(report.manifests[0]!.frames[0]!.findings[0]).toMatchObject({ rule: 'photo-missing', severity: 'error' });
  const within = measuredSession(manifest.replace('a.jpg', 'link/a.jpg'), ['link/a.jpg']);
  symlinkSync(elsewhere, join(within, 'link'));
  const linked = await checkJson(join(within, 'crops.yaml'));
  expect(linked.report.manifests[0]!.frames[0]!.findings[0]!.message).toContain('leads out of the photos folder');
  const { code } = await checkJson(join(folder, 'crops.yaml'), '--photos', elsewhere);
  expect(code).toBe(0);
});

test('what is broken in one frame hides no other: a problem with its line, and the rest is checked', async () => {
  const folder = measuredSession(
    `${HEAD}  - photo: a.jpg\n    crop: { x: 0.1, y: wide, w: 0.5, h: 0.5 }\n  - photo: b.jpg\n    crop: ${KNEES}\n`,
    ['a.jpg', 'b.jpg'],
  );
  const { code, report } = await checkJson(join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  const [first, second] = report.manifests[0]!.frames;
  expect(first!.findings.map(({ rule }) => rule)).toContain('manifest');
  expect(first!.findings.every(({ rule }) => rule === 'manifest')).toBe(true);
  expect(second!.findings.filter(({ rule }) => rule === 'joint-cut')).toHaveLength(2);
});

test('a bad line of the people file is told with its line number and stops nothing', async () => {
  const folder = measuredSession(frame(`    crop: ${CLEAN}\n`));
  const good = peopleFile({ 'a.jpg': 'standing' });
  writeFileSync(join(folder, 'crops.people.jsonl'), `{"photo":\n${good}`);
  const { code, report } = await checkJson(join(folder, 'crops.yaml'), '--rule', 'manifest');
  expect(code).toBe(1);
  expect(report.manifests[0]!.findings[0]!.message).toContain('crops.people.jsonl, line 1:');
  expect(report.manifests[0]!.frames[0]!.findings).toEqual([]);
});

test('subjects that nobody has are told on their value', async () => {
  const folder = measuredSession(frame(`    crop: ${CLEAN}\n    subjects: [1, 4]\n`));
  const { report } = await checkJson(join(folder, 'crops.yaml'), '--rule', 'manifest');
  expect(report.manifests[0]!.frames[0]!.findings).toMatchObject([{ severity: 'warning', line: 7, column: 15 }]);
});

test.each([
  ['no such file', ['check', 'nowhere.yaml'], 'nowhere.yaml cannot be read: it is not there.'],
  ['an unknown rule', ['check', '--rule', 'joint-cuts', 'x.yaml'], 'Did you mean joint-cut?'],
  [
    'a rule of a later version',
    ['check', '--rule', 'backdrop', 'x.yaml'],
    'There is no rule "backdrop" in this version.',
  ],
  ['an unknown format', ['check', '--format', 'yaml', 'x.yaml'], '--format takes text, json, sarif'],
  ['a negative count', ['check', '--max-warnings', '-1', 'x.yaml'], '--max-warnings takes a whole number from 0'],
  ['an unknown option', ['check', '--fomat', 'json', 'x.yaml'], 'Did you mean --format?'],
  ['an unknown command', ['chek', 'x.yaml'], 'Did you mean check?'],
  ['no manifest', ['check'], "missing required argument 'manifest'"],
])('a bad call (%s) is exit 2 and says what would be right', async (_, argv, says) => {
  const { code, out, err } = await selvedge(...argv);
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toContain(says);
});

test('a manifest of which no frame can be read is exit 2, with the places that break', async () => {
  const folder = folderWith({ 'crops.yaml': 'selvedge: 1\nframes:\n  - photo: [a\n' });
  const { code, err } = await selvedge('check', join(folder, 'crops.yaml'));
  expect(code).toBe(2);
  expect(err).toMatch(/crops\.yaml:\d+:\d+ {2}/);
  const binary = folderWith({ 'crops.yaml': Buffer.from([0xff, 0xfe, 0x00, 0x80]) });
  expect((await selvedge('check', join(binary, 'crops.yaml'))).err).toContain('UTF-8');
});

test('what could not be read is an error whatever the manifest says of that rule', async () => {
  const text = 'selvedge: 1\naspect: free\nrules: { manifest: off }\nframes:\n';
  const frames = `  - photo: a.jpg\n    crop: ${CLEAN}\n  - photo: a.jpg\n    crop: { x: none }\n    colour: red\n`;
  const folder = measuredSession(text + frames);
  const { code, out } = await selvedge('check', join(folder, 'crops.yaml'));
  expect(code).toBe(1);
  expect(out).toContain('crop');
  expect(out).toContain('error');
  expect(out).not.toContain('colour');
});

test('a photo in which nobody was found is told once, as a hint', async () => {
  const people = peopleFile({ 'a.jpg': [] });
  const folder = folderWith({ 'crops.yaml': `${HEAD}  - photo: a.jpg\n`, 'crops.people.jsonl': people });
  const { code, out } = await selvedge('check', '--hints', join(folder, 'crops.yaml'));
  expect(code).toBe(0);
  expect(out.match(/Nobody was found in a\.jpg/g)).toHaveLength(1);
});

test('help for every command, and the version', async () => {
  for (const command of ['init', 'measure', 'check', 'fix']) {
    const { code, out } = await selvedge(command, '--help');
    expect(code).toBe(0);
    expect(out).toContain(`Usage: selvedge ${command}`);
    expect(await selvedge(command, '-h')).toEqual({ code, out, err: '' });
    expect(await selvedge('help', command)).toEqual({ code, out, err: '' });
  }
  expect((await selvedge('--help')).out).toContain('Exit codes');
  expect(await selvedge('--version')).toMatchObject({
    code: 0,
    out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/) as string,
  });
});
