import { expect, test } from 'vitest';
import { parsePeopleFile } from './people-file.ts';
import { PeopleReader } from './people-reader.ts';

const line = (photo: string, more = ''): string => `{"photo":"${photo}","size":[40,60],"people":[]${more}}`;

test('reads only lines that it has not read before, and says what a fresh reading says', () => {
  const reader = new PeopleReader();
  const before = reader.read([line('a.jpg'), line('b.jpg'), 'no JSON'].join('\n'));
  const text = ['{', line('b.jpg'), line('a.jpg', ',"by":"somebody"'), 'no JSON'].join('\n');
  const after = reader.read(text);
  expect(after).toEqual(parsePeopleFile(text));
  expect(after.photos.get('b.jpg')).toBe(before.photos.get('b.jpg'));
  expect(after.photos.get('a.jpg')).not.toBe(before.photos.get('a.jpg'));
});
