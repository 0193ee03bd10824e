import { expect, test } from 'vitest';
import { readFromReview } from './review-messages.ts';

test.each([{ kind: 'ready' }, { kind: 'again' }, { kind: 'go', place: 0 }, { kind: 'go', place: 4999 }])(
  'a message of the page is understood: %j',
  (message) => {
    expect(readFromReview({ ...message, path: '/etc/passwd' })).toEqual(message);
  },
);

test.each([
  undefined,
  null,
  'go',
  7,
  [],
  {},
  { kind: 'write' },
  { kind: 'go' },
  { kind: 'go', place: -1 },
  { kind: 'go', place: 0.5 },
  { kind: 'go', place: '1' },
  { kind: 'go', place: Number.NaN },
  { kind: 'go', place: 1e300 },
])('anything else is none: %j', (message) => {
  expect(readFromReview(message)).toBeUndefined();
});
