import { expect, it } from 'vitest';
import { readFromMat } from './messages.ts';

const CROP = { x: 0.1, y: 0.1, w: 0.5, h: 0.5 };

it('takes what the mat says, and only the members that it knows', () => {
  expect(readFromMat({ kind: 'ready', extra: 1 })).toEqual({ kind: 'ready' });
  expect(readFromMat({ kind: 'crop', index: 2, crop: { ...CROP, path: '/etc' } })).toEqual({
    kind: 'crop',
    index: 2,
    crop: CROP,
  });
  expect(readFromMat({ kind: 'go', to: 'next' })).toEqual({ kind: 'go', to: 'next' });
});

it.each([
  undefined,
  'ready',
  { kind: 'open', path: '/etc/passwd' },
  { kind: 'go', to: '../..' },
  { kind: 'crop', index: '2', crop: CROP },
  { kind: 'crop', index: 1.5, crop: CROP },
  { kind: 'crop', index: 1, crop: { ...CROP, w: 0 } },
  { kind: 'crop', index: 1, crop: { ...CROP, h: Number.NaN } },
  { kind: 'crop', index: 1, crop: { ...CROP, x: 'x: 0 }\nphotos: /' } },
  { kind: 'crop', index: 1, crop: null },
])('takes nothing else: %j', (message) => {
  expect(readFromMat(message)).toBeUndefined();
});
