import { readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { requireWritable } from '../../src/session/text-file.ts';
import { checkJson, CLEAN, folderWith, HEAD, KNEES, measuredSession, picture, selvedge } from './workspace.ts';

const CUT = `${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n`;

test('the same manifest twice, or by two spellings, is done once', async () => {
  const folder = measuredSession(CUT);
  const path = join(folder, 'crops.yaml');
  symlinkSync(path, join(folder, 'link.yaml'));
  const { report } = await checkJson(path, path, `${folder}/./crops.yaml`, folder);
  expect(report.manifests).toHaveLength(1);
  const { code, out } = await selvedge('fix', path, path, join(folder, 'link.yaml'));
  expect(code).toBe(0);
  expect(out.match(/changed \d+ frame/g)).toEqual(['changed 1 frame']);
});

test('a manifest that is missing among several is said, and the others are done; exit 2', async () => {
  const one = join(measuredSession(CUT), 'crops.yaml');
  const other = join(measuredSession(CUT), 'crops.yaml');
  const checked = await selvedge('check', one, 'nowhere.yaml', other);
  expect(checked.code).toBe(2);
  expect(checked.err).toContain('nowhere.yaml cannot be read: it is not there.');
  expect(checked.out).toContain('2 frames: 0 errors, 4 warnings');
  const fixed = await selvedge('fix', one, 'nowhere.yaml', other);
  expect(fixed.code).toBe(2);
  expect(fixed.err).toContain('nowhere.yaml');
  for (const path of [one, other]) expect(readFileSync(path, 'utf8')).not.toContain(KNEES);
});

test('a folder stands for its crops.yaml; without one the error says what to do', async () => {
  const folder = measuredSession(CUT);
  expect((await selvedge('check', folder)).out).toContain(`${join(folder, 'crops.yaml')}:6:40`);
  expect((await selvedge('fix', folder)).code).toBe(0);
  writeFileSync(join(folder, 'a.jpg'), await picture());
  expect((await selvedge('measure', folder)).out).toContain('0 photos measured, 1 unchanged');
  const empty = folderWith({});
  for (const command of ['check', 'fix', 'measure']) {
    expect(await selvedge(command, empty)).toMatchObject({
      code: 2,
      err: expect.stringContaining(`has no crops.yaml. Write one with: selvedge init ${empty}`) as string,
    });
  }
  const named = folderWith({ 'late light.crops.yaml': CUT });
  expect((await selvedge('check', named)).err).toContain(`Name the manifest itself: '${named}/late light.crops.yaml'`);
});

test('what is no manifest is said to be what it is', async () => {
  const folder = folderWith({ 'crops.jpg': await picture(), 'crops.people.jsonl': '' });
  expect((await selvedge('check', join(folder, 'crops.jpg'))).err).toContain('crops.jpg is a picture, not a manifest');
  expect((await selvedge('fix', join(folder, 'crops.people.jsonl'))).err).toContain('is a people file, not a manifest');
});

test('--photos that is no folder is a bad call; a folder without any of the photos is an error', async () => {
  const path = join(measuredSession(CUT), 'crops.yaml');
  for (const command of ['check', 'fix', 'measure']) {
    const { code, out, err } = await selvedge(command, '--photos', join(path, '../nowhere'), path);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('there is no such folder');
    expect((await selvedge(command, '--photos', path, path)).err).toContain('this is no folder');
  }
  const clean = join(measuredSession(CUT.replace(KNEES, CLEAN)), 'crops.yaml');
  const elsewhere = folderWith({});
  const { code, out } = await selvedge('check', '--photos', elsewhere, clean);
  expect(code).toBe(1);
  expect(out).toContain(`error  None of the photos is in ${elsewhere}`);
});

test('commands that are printed can be pasted into a shell', async () => {
  const folder = folderWith({
    "Zoë's late light/crops.yaml": `${HEAD}  - photo: a.jpg\n`,
    "Zoë's late light/a.jpg": await picture(),
    'new one/a.jpg': await picture(),
  });
  const checked = await selvedge('check', join(folder, "Zoë's late light"));
  expect(checked.out).toContain(String.raw`Run: selvedge measure '${folder}/Zoë'\''s late light/crops.yaml'`);
  const begun = await selvedge('init', join(folder, 'new one'));
  expect(begun.out).toContain(`next: selvedge measure '${folder}/new one/crops.yaml'`);
});

test('an interrupt of fix says that nothing was written, and that is true', async () => {
  const folder = measuredSession(CUT);
  const interrupt = new AbortController();
  interrupt.abort();
  let err = '';
  const code = await run(['fix', join(folder, 'crops.yaml')], {
    stdout: { write: () => undefined },
    stderr: { write: (text) => (err += text) },
    signal: interrupt.signal,
  });
  expect(code).toBe(130);
  expect(err).toBe('selvedge: Interrupted. Nothing was written.\n');
  expect(readFileSync(join(folder, 'crops.yaml'), 'utf8')).toBe(CUT);
});

test('an interrupt in the second of two manifests says which one is fixed', async () => {
  const [first, second] = [measuredSession(CUT), measuredSession(CUT)].map((folder) => join(folder, 'crops.yaml'));
  const interrupt = new AbortController();
  let err = '';
  const code = await run(['fix', first!, second!], {
    stdout: {
      write: () => {
        interrupt.abort();
      },
    },
    stderr: { write: (text) => (err += text) },
    signal: interrupt.signal,
  });
  expect(code).toBe(130);
  expect(err).toBe(`selvedge: Interrupted. ${first!} is fixed; nothing was written to ${second!}.\n`);
  expect(readFileSync(first!, 'utf8')).not.toBe(CUT);
  expect(readFileSync(second!, 'utf8')).toBe(CUT);
});

test('measure says before it measures that its file cannot be written', async ({ skip }) => {
  skip(process.platform !== 'linux', 'needs a place that not even root can write to: /proc is one on Linux only');
  const photos = folderWith({ 'crops.yaml': `${HEAD}  - photo: a.jpg\n`, 'a.jpg': await picture() });
  await expect(requireWritable('/proc/crops.people.jsonl')).rejects.toThrow('Nothing was begun.');
  await expect(requireWritable(join(photos, 'crops.people.jsonl'))).resolves.toBeUndefined();
  await expect(requireWritable(join(photos, 'gone', 'crops.people.jsonl'))).rejects.toThrow('it is not there');
});
