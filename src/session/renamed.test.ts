import { expect, test } from 'vitest';
import { likelyFile } from './renamed.ts';

test.each([
  ['another case', 'a-01.jpg', ['A-01.JPG', 'b.jpg'], 'A-01.JPG'],
  ['another extension', 'a-01.jpg', ['a-01.tif'], 'a-01.tif'],
  ['another folder', 'a-01.jpg', ['picks/a-01.jpg'], 'picks/a-01.jpg'],
  ['a letter missing', 'boardwlk.jpg', ['boardwalk.jpg'], 'boardwalk.jpg'],
  ['a letter too many', 'boardwallk.jpg', ['boardwalk.jpg'], 'boardwalk.jpg'],
  ['a wrong letter', 'boardwelk.jpg', ['boardwalk.jpg'], 'boardwalk.jpg'],
  ['two letters swapped', 'baordwalk.jpg', ['boardwalk.jpg'], 'boardwalk.jpg'],
  ['a zero missing', '142.jpg', ['0142.jpg'], '0142.jpg'],
  ['the next photo of the session', '0142.jpg', ['0143.jpg'], undefined],
  ['two of the same stem', 'a-01.jpg', ['a-01.tif', 'a-01.png'], undefined],
  ['two letters off', 'boardwalk.jpg', ['bordwakl.jpg'], undefined],
  ['nothing alike', 'boardwalk.jpg', ['studio.jpg'], undefined],
  ['nothing there', 'boardwalk.jpg', [], undefined],
])('%s', (_, missing, candidates, meant) => {
  expect(likelyFile(missing, candidates)).toBe(meant);
});
