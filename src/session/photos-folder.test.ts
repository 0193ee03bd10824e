import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { PhotoPlaces } from './photos-folder.ts';

let home: string;
let photos: string;

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'selvedge-places-'));
  photos = join(home, 'photos');
  await mkdir(join(photos, 'day two'), { recursive: true });
});

afterEach(() => rm(home, { recursive: true, force: true }));

test('what is there is found however many names were not there before', async () => {
  await writeFile(join(photos, '0142.jpg'), 'photo');
  await writeFile(join(photos, 'day two', 'Ähren.JPG'.normalize('NFD')), 'photo');
  await writeFile(join(photos, '0143~1.jpg'), 'photo');
  await writeFile(join(home, 'secret.jpg'), 'photo');
  await symlink(join(home, 'secret.jpg'), join(photos, 'out.jpg'));
  await symlink(join(photos, '0142.jpg'), join(photos, 'in.jpg'));
  await symlink(join(home, 'nothing.jpg'), join(photos, 'nowhere.jpg'));
  const names = [
    '0142.jpg', 'day two/Ähren.JPG'.normalize('NFD'), '0143~1.jpg', 'out.jpg', 'in.jpg', 'nowhere.jpg',
    '../secret.jpg', 'none.jpg', 'no folder/none.jpg', '0142.jpg/none.jpg', '0142~1.jpg',
  ]; // prettier-ignore
  const look = async (places: PhotoPlaces, name: string): Promise<readonly [boolean, boolean]> => {
    const found = await places.find(name);
    return [found !== undefined, found?.stats !== undefined];
  };
  const afterMisses = new PhotoPlaces(photos);
  for (let number = 0; number < 50; number++) await afterMisses.find(`missing-${number}.jpg`);
  for (const name of names) {
    expect(await look(afterMisses, name), name).toEqual(await look(new PhotoPlaces(photos), name));
  }
  expect(await look(afterMisses, '0142.jpg')).toEqual([true, true]);
  expect(await look(afterMisses, 'out.jpg')).toEqual([false, false]);
  expect(await look(afterMisses, 'none.jpg')).toEqual([true, false]);
});
