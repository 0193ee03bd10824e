import { chmodSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { makeFolder } from '../../src/session/make-folder.ts';
import { writeWhole } from '../../src/session/write-whole.ts';
import { folderWith } from '../cli/workspace.ts';
import { smallDisk, whyNoSmallDisk } from './support/small-disk.ts';

const reason = whyNoSmallDisk();

test('a file that is written again keeps its mode, and a link stays a link', async () => {
  const folder = folderWith({ 'real.yaml': 'before' });
  const [real, link] = [join(folder, 'real.yaml'), join(folder, 'link.yaml')];
  chmodSync(real, 0o640);
  symlinkSync('real.yaml', link);
  await writeWhole(link, 'after');
  expect(readFileSync(real, 'utf8')).toBe('after');
  expect(statSync(real).mode & 0o777).toBe(0o640);
  expect(readdirSync(folder).sort()).toEqual(['link.yaml', 'real.yaml']);
});

test('a folder is made with those above it, and is fine when it is there', async () => {
  const folder = folderWith({ 'file.txt': '' });
  await makeFolder(join(folder, 'a/b/c'));
  await makeFolder(join(folder, 'a/b/c'));
  expect(statSync(join(folder, 'a/b/c')).isDirectory()).toBe(true);
  await expect(makeFolder(join(folder, 'file.txt'))).rejects.toThrow('EEXIST');
  await expect(makeFolder(join(folder, 'file.txt/a'))).rejects.toThrow('ENOTDIR');
});

test.skipIf(process.platform !== 'linux')('a place that takes no folders is an error at once', async () => {
  await expect(makeFolder('/proc/selvedge/a')).rejects.toThrow('ENOENT');
});

test.skipIf(reason !== undefined)(
  reason ?? 'a disk that has room for a part is an error, and the file is as it was',
  async () => {
    const disk = smallDisk();
    try {
      const path = join(disk.folder, 'crops.yaml');
      writeFileSync(path, 'before');
      // Twice as much as the disk holds: the first write takes a part.
      for (const content of ['x'.repeat(512 * 1024), Buffer.alloc(512 * 1024)]) {
        await expect(writeWhole(path, content)).rejects.toThrow('ENOSPC');
        expect(readFileSync(path, 'utf8')).toBe('before');
      }
      expect(readdirSync(disk.folder).sort()).toEqual(['crops.yaml']);
    } finally {
      disk.remove();
    }
  },
);
