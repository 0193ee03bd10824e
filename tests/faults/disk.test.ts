import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { folderWith, HEAD, KNEES, peopleFile, picture, selvedge } from '../cli/workspace.ts';
import { smallDisk, whyNoSmallDisk, type SmallDisk } from './support/small-disk.ts';

const reason = whyNoSmallDisk();
const title = (what: string): string => (reason === undefined ? what : `${what} (skipped: ${reason})`);

const MANIFEST = `${HEAD}  # the client's favourite\n  - photo: a.jpg\n    crop: ${KNEES} # keep me\n`;
const PEOPLE = peopleFile({ 'a.jpg': 'standing' });

let disk: SmallDisk;
let path = '';

function setUp(people = PEOPLE): void {
  disk = smallDisk();
  path = join(disk.folder, 'crops.yaml');
  writeFileSync(path, MANIFEST);
  writeFileSync(join(disk.folder, 'crops.people.jsonl'), people);
}

function expectUntouched(people = PEOPLE): void {
  expect(readFileSync(path, 'utf8')).toBe(MANIFEST);
  expect(readFileSync(join(disk.folder, 'crops.people.jsonl'), 'utf8')).toBe(people);
  expect(readdirSync(disk.folder).filter((name) => name !== 'filler' && name !== 'shoot')).toEqual([
    'crops.people.jsonl',
    'crops.yaml',
  ]);
}

describe.skipIf(reason !== undefined).each([
  ['a full disk', 'the disk is full'],
  ['a read-only disk', 'the disk is read-only'],
])(title('%s'), (kind, cause) => {
  const close = (): void => {
    if (kind === 'a full disk') disk.fill();
    else disk.readOnly();
  };

  afterEach(() => {
    disk.remove();
  });

  describe('with people measured', () => {
    beforeEach(() => {
      setUp();
      mkdirSync(join(disk.folder, 'shoot'));
      writeFileSync(join(disk.folder, 'shoot/a.jpg'), '');
      close();
    });

    test('check works as ever', async () => {
      const { code, out } = await selvedge('check', path);
      expect(code).toBe(1);
      expect(out).toContain('cuts the left knee');
      expectUntouched();
    });

    test('fix says what is wrong and leaves the manifest whole', async () => {
      const { code, out, err } = await selvedge('fix', path);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toBe(`selvedge: ${path} cannot be written: ${cause}. It is as it was.\n`);
      expectUntouched();
    });

    test('fix --dry-run needs no room', async () => {
      const { out } = await selvedge('fix', '--dry-run', path);
      expect(out).toContain('would change 1 frame');
      expectUntouched();
    });

    test('init leaves no half manifest', async () => {
      const { code, err } = await selvedge('init', join(disk.folder, 'shoot'));
      expect(code).toBe(2);
      expect(err).toContain(`crops.yaml cannot be written: ${cause}.`);
      expect(readdirSync(join(disk.folder, 'shoot'))).toEqual(['a.jpg']);
    });
  });

  test('measure says what is wrong and leaves the people file whole', async () => {
    const others = peopleFile({ 'b.jpg': 'standing' }) + 'a line of somebody else\n';
    setUp(others);
    close();
    const photos = folderWith({ 'a.jpg': await picture(200, 300) });
    const { code, err } = await selvedge('measure', '--workers', '1', '--photos', photos, path);
    expect(code).toBe(2);
    expect(err).toMatch(
      new RegExp(
        `^selvedge: \\S+crops\\.people\\.jsonl cannot be written: ${cause}\\. (Nothing was begun|It is as it was)\\.\\n$`,
      ),
    );
    expectUntouched(others);
  });
});

test('a folder that this user may not write: the manifest stays whole', () => {
  const folder = folderWith({ 'crops.yaml': MANIFEST, 'crops.people.jsonl': PEOPLE });
  chmodSync(folder, 0o555);
  // No permission binds root: then the command runs as nobody (POSIX leaves the number open; 65534 is Linux's own).
  const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
  const commandLine = join(import.meta.dirname, '../../dist/selvedge.js');
  const manifest = join(folder, 'crops.yaml');
  const { status, stderr } = spawnSync(process.execPath, [commandLine, 'fix', manifest], {
    ...nobody,
    encoding: 'utf8',
  });
  chmodSync(folder, 0o755);
  expect(stderr).toBe(
    `selvedge: ${manifest} cannot be written: you may not read or write it (change its permissions, or name a place that is yours). It is as it was.\n`,
  );
  expect(status).toBe(2);
  expect(readFileSync(manifest, 'utf8')).toBe(MANIFEST);
});
