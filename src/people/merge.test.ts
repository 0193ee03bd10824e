import { expect, test } from 'vitest';
import { mergeMeasured } from './merge.ts';
import type { Person, PhotoPeople } from './person.ts';

function person(id: number, left: number, source: Person['source'] = 'model', width = 0.2): Person {
  return { id, source, box: [left, 0.1, width, 0.8], points: {} };
}

function photo(people: readonly Person[], digest = 'sha256:new'): PhotoPeople {
  return { photo: 'a.jpg', size: { width: 100, height: 100 }, people, digest };
}

test('a photo that was never measured is taken as it is', () => {
  const measured = photo([person(1, 0.1)]);
  expect(mergeMeasured(undefined, measured)).toBe(measured);
});

test('people keep their ids by overlap, whatever the order; new people get the next free id', () => {
  const earlier = photo([person(2, 0.1), person(5, 0.6)], 'sha256:old');
  const again = mergeMeasured(earlier, photo([person(1, 0.62), person(2, 0.35), person(3, 0.11)]));
  expect(again.people.map(({ id, box }) => [id, box[0]])).toEqual([
    [2, 0.11],
    [5, 0.62],
    [6, 0.35],
  ]);
  expect(again.digest).toBe('sha256:new');
});

test('two who stand close together are not exchanged: the largest overlap comes first', () => {
  const earlier = photo([person(1, 0.3), person(2, 0.38)]);
  const again = mergeMeasured(earlier, photo([person(1, 0.39), person(2, 0.31)]));
  expect(again.people.map(({ id, box }) => [id, box[0]])).toEqual([
    [1, 0.31],
    [2, 0.39],
  ]);
});

test('whoever was corrected by hand stays as they are, also where measuring finds nobody', () => {
  const corrected = { ...person(1, 0.1, 'hand'), points: { nose: { x: 0.2, y: 0.2, confidence: 1 } } };
  const alone = person(3, 0.7, 'hand', 0.05);
  const again = mergeMeasured(photo([corrected, alone, person(2, 0.4)]), photo([person(1, 0.12), person(2, 0.41)]));
  expect(again.people).toEqual([corrected, { ...person(2, 0.41) }, alone]);
});

test('somebody who is no longer found loses the place, and the id is not given to another', () => {
  const again = mergeMeasured(photo([person(1, 0.1), person(2, 0.4)]), photo([person(1, 0.7)]));
  expect(again.people.map(({ id }) => id)).toEqual([3]);
});
