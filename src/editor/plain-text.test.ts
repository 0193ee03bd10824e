import fc from 'fast-check';
import { expect, it } from 'vitest';
import { markdownText, plainLabel, plainLine, plainMessage } from './plain-text.ts';

it('shows what cannot be seen, and cuts what is very long', () => {
  expect(plainLine('a\u0000b\nc\u202ed\u200be')).toBe('a\\u0000b\\nc\\u202ed\uFFFDe');
  expect(plainLine('x'.repeat(5000))).toHaveLength(401);
});

it('leaves nothing in Markdown that could act', () => {
  expect(markdownText('[x](command:quit)')).toBe('&#91;x&#93;&#40;command&#58;quit&#41;');
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      expect(markdownText(text)).not.toMatch(/[\p{Cc}<>[\]()`|*_\\]/u);
    }),
  );
});

it('leaves no picture in a label, and no link in a notification', () => {
  expect(plainLabel('$(trash).jpg')).toBe('\\$(trash).jpg');
  expect(plainMessage('[x](command:quit).jpg')).toBe('[x] (command:quit).jpg');
});
