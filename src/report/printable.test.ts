import { expect, test } from 'vitest';
import { printable, printableJson, printableLines } from './printable.ts';

test.each([
  ['a plain name', 'Straße 0142 (final).jpg', 'Straße 0142 (final).jpg'],
  ['other scripts and pictures', '桟橋-שלום-🌊👩‍👩‍👧.jpg', '桟橋-שלום-🌊👩‍👩‍👧.jpg'],
  ['an escape sequence', 'a\u001b[2Jb', 'a\\u001b[2Jb'],
  ['the one-byte sequence start', 'a\u009b2Jb', 'a\\u009b2Jb'],
  ['line breaks', 'a\nb\r\nc\td', 'a\\nb\\r\\nc\\td'],
  ['a bell, a backspace, a delete', '\u0007\u0008\u007f', '\\u0007\\u0008\\u007f'],
  ['a name that reads backwards (UAX #9)', 'photo\u202egpj.exe', 'photo\\u202egpj.exe'],
  ['other line ends', 'a\u2028b\u2029c', 'a\\u2028b\\u2029c'],
])('%s', (_, text, shown) => {
  expect(printable(text)).toBe(shown);
});

test('our own line breaks stay where they are asked to', () => {
  expect(printableLines('one\ntwo\u001b\n')).toBe('one\ntwo\\u001b\n');
});

test('JSON stays the same value', () => {
  const value = { name: 'a\u001b\u009b\u202e\u007f\u2028 "\\" b' };
  const shown = printableJson(`${JSON.stringify(value)}\n`);
  expect(shown.trimEnd()).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028-\u202e]/);
  expect(JSON.parse(shown)).toEqual(value);
});
