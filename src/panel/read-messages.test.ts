import { expect, it } from 'vitest';
import { readFromMat } from './read-messages.ts';

const CROP = { x: 0.1, y: 0.1, w: 0.5, h: 0.5 };
const AT = { x: 0.4, y: 0.6 };

it.each([
  { kind: 'ready' },
  { kind: 'undo' },
  { kind: 'redo' },
  { kind: 'save' },
  { kind: 'take-back' },
  { kind: 'measure' },
  { kind: 'go', to: 'next' },
  { kind: 'cut-for', output: 'album' },
  { kind: 'cut-for', output: undefined },
  { kind: 'switches', on: ['keep-shape', 'thirds'] },
  { kind: 'crop', revision: 2, crop: CROP, degrees: -1.25 },
  { kind: 'look', revision: 2, region: CROP, longEdge: 900 },
  { kind: 'allow', revision: 2, key: 'joint-cut/left_wrist', reason: 'tucked in the pocket: “as asked” # really' },
  { kind: 'approve', revision: 2, isFinal: false },
  { kind: 'correct', revision: 2, correction: { kind: 'place', person: 1, place: 'left_knee', at: AT } },
  { kind: 'correct', revision: 2, correction: { kind: 'unplace', person: 1, place: 'chin' } },
  { kind: 'correct', revision: 2, correction: { kind: 'remove', person: 1 } },
  { kind: 'correct', revision: 2, correction: { kind: 'add', places: { head_top: AT, nose: AT } } },
])('takes what the mat says: %j', (message) => {
  expect(readFromMat(message)).toEqual(message);
});

it('takes only the members that it knows', () => {
  expect(readFromMat({ kind: 'ready', path: '/etc/passwd' })).toEqual({ kind: 'ready' });
  const look = { kind: 'look', revision: 2, region: { ...CROP, path: '/etc' }, longEdge: 9, path: '/etc/passwd' };
  expect(readFromMat(look)).toEqual({ kind: 'look', revision: 2, region: CROP, longEdge: 9 });
});

it.each([
  undefined,
  'ready',
  ['ready'],
  { kind: 'open', path: '/etc/passwd' },
  { kind: 'go', to: '../..' },
  { kind: 'cut-for', output: 7 },
  { kind: 'cut-for', output: 'a'.repeat(100) },
  { kind: 'allow', revision: 2, key: 'joint-cut: x\n', reason: 'why' },
  { kind: 'allow', revision: 2, key: 'joint-cut/../..', reason: 'why' },
  { kind: 'allow', revision: 2, key: 'a'.repeat(100), reason: 'why' },
  { kind: 'allow', revision: 2, key: 'joint-cut', reason: '  ' },
  { kind: 'allow', revision: 2, key: 'joint-cut', reason: 'why\nphotos: /' },
  { kind: 'allow', revision: 2, key: 'joint-cut', reason: 'x'.repeat(301) },
  { kind: 'allow', key: 'joint-cut', reason: 'why' },
  { kind: 'approve', revision: 2, isFinal: 'yes' },
  { kind: 'switches', on: ['thirds', 'everything'] },
  { kind: 'switches', on: 'thirds' },
  { kind: 'crop', revision: '2', crop: CROP, degrees: 0 },
  { kind: 'crop', revision: 1.5, crop: CROP, degrees: 0 },
  { kind: 'crop', revision: -1, crop: CROP, degrees: 0 },
  { kind: 'crop', revision: 1, crop: { ...CROP, w: 0 }, degrees: 0 },
  { kind: 'crop', revision: 1, crop: { ...CROP, h: Number.NaN }, degrees: 0 },
  { kind: 'crop', revision: 1, crop: { ...CROP, x: 'x: 0 }\nphotos: /' }, degrees: 0 },
  { kind: 'crop', revision: 1, crop: null, degrees: 0 },
  { kind: 'crop', revision: 1, crop: CROP, degrees: 90 },
  { kind: 'crop', revision: 1, crop: CROP },
  { kind: 'look', revision: 1, region: { ...CROP, x: 0.7 }, longEdge: 900 },
  { kind: 'look', revision: 1, region: CROP, longEdge: 1e9 },
  { kind: 'correct', revision: 1, correction: { kind: 'place', person: 1, place: '__proto__', at: AT } },
  {
    kind: 'correct',
    revision: 1,
    correction: { kind: 'place', person: 1, place: 'left_knee', at: { x: 1e300, y: 0 } },
  },
  { kind: 'correct', revision: 1, correction: { kind: 'place', person: 'all', place: 'left_knee', at: AT } },
  { kind: 'correct', revision: 1, correction: { kind: 'add', places: { nose: AT, tail: AT } } },
  { kind: 'correct', revision: 1, correction: { kind: 'rewrite', person: 1, place: 'nose' } },
  { kind: 'correct', revision: 1 },
])('takes nothing else: %j', (message) => {
  expect(readFromMat(message)).toBeUndefined();
});
