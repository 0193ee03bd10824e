import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineIndex } from './position.ts';

describe('LineIndex', () => {
  it.each([
    ['', 0, 1, 1],
    ['ab', 2, 1, 3],
    ['a\nb', 2, 2, 1],
    ['a\r\nb', 3, 2, 1],
    ['a\r\nb', 1, 1, 2],
    ['a\n', 2, 2, 1],
    ['𝒂b', 2, 1, 3],
    ['a', 9, 1, 2],
    ['a', -1, 1, 1],
  ])('%j at %i', (text, offset, line, column) => {
    expect(new LineIndex(text).positionAt(offset)).toEqual({ line, column });
  });

  it('goes there and back, and counts as splitting does', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', '\n', '\r\n', 'é')), fc.nat(), (parts, at) => {
        const text = parts.join('');
        const offset = at % (text.length + 1);
        const index = new LineIndex(text);
        const position = index.positionAt(offset);
        expect(index.offsetAt(position)).toBe(offset);
        const before = text.slice(0, offset).split('\n');
        expect(position).toEqual({ line: before.length, column: before.at(-1)!.length + 1 });
      }),
    );
  });
});
