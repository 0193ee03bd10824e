import { expect, it } from 'vitest';
import { giveMemoryBack, takeMemory } from './spare-memory.ts';

it('gives memory back empty, at the length that was asked for', () => {
  const first = takeMemory(100).fill(7);
  giveMemoryBack(first);
  const second = takeMemory(60);
  expect(second.buffer).toBe(first.buffer);
  expect(Array.from(second)).toEqual(Array.from({ length: 60 }, () => 0));
});

it('never gives the same memory twice', () => {
  giveMemoryBack(takeMemory(100));
  const [first, second] = [takeMemory(100), takeMemory(100)];
  expect(second.buffer).not.toBe(first.buffer);
});

it('keeps the largest of what is given back', () => {
  const all = [300, 400, 200, 100].map((length) => takeMemory(length));
  all.forEach(giveMemoryBack);
  expect(takeMemory(100).length).toBe(100);
  expect(takeMemory(350).buffer).toBe(all[1]!.buffer);
});
