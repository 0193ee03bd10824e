import { describe, expect, it } from 'vitest';
import { LineIndex } from './position.ts';
import { parseManifest } from './parse.ts';

const TOP = 'selvedge: 1\nframes:\n';
const A = '  - photo: a.jpg\n';
const B = '  - photo: b.jpg\n';
const CROP = '    crop: { x: 0.1, y: 0.1, w: 0.5, h: 0.5 }\n';

/** A slip of the hand, the same mended as its message says, in which line it is told, and the words. */
const SLIPS: readonly (readonly [name: string, broken: string, mended: string, line: number, words: string])[] = [
  ['a tab', `${TOP}${A}\tlength: close-up\n`, `${TOP}${A}    length: close-up\n`, 4, 'indent with spaces'],
  ['no space after the colon', `${TOP}${A}    length:close-up\n`, `${TOP}${A}    length: close-up\n`, 4, 'a space is missing after the colon: write "length: close-up"'],
  ['the same in the first key', `${TOP}  - photo:a.jpg\n    note: x\n`, `${TOP}${A}    note: x\n`, 3, 'write "photo: a.jpg"'],
  ['the same over the frames', `selvedge: 1\naspect:free\nframes:\n${A}`, `selvedge: 1\naspect: free\nframes:\n${A}`, 2, 'write "aspect: free"'],
  ['the same in braces', `${TOP}${A}    crop: {x:0.1, y: 0.1, w: 0.5, h: 0.5}\n`, `${TOP}${A}${CROP}`, 4, '"x:0.1" is no key: a space is missing after the colon. Write "x: 0.1".'],
  ['no colon', `${TOP}${A}    length close-up\n`, `${TOP}${A}    length: close-up\n`, 4, 'a colon is missing after length: write "length: close-up"'],
  ['no colon in braces', `${TOP}${A}    crop: { x 0.1, y: 0.1, w: 0.5, h: 0.5 }\n`, `${TOP}${A}${CROP}`, 4, 'a colon is missing. Write "x: 0.1".'],
  ['no colon after frames', `selvedge: 1\nframes\n${A}`, `${TOP}${A}`, 2, 'a colon is missing after frames: write "frames:"'],
  ['no dash', `${TOP}${A}  photo: b.jpg\n`, `${TOP}${A}${B}`, 4, 'a dash is missing: every frame begins with one; write "- photo: b.jpg"'],
  ['no dash at the first', `${TOP}  photo: a.jpg\n${B}`, `${TOP}${A}${B}`, 4, 'a dash is missing in the line above: write "- photo: a.jpg"'],
  ['no space after the dash', `${TOP}${A}  -photo: b.jpg\n`, `${TOP}${A}${B}`, 4, 'a space is missing after the dash: write "- photo: b.jpg"'],
  ['a quote is open', `${TOP}${A}    note: "wider\n${B}`, `${TOP}${A}    note: "wider"\n${B}`, 4, 'the closing quote is missing'],
  ['a brace is open', `${TOP}${A}${CROP.replace(' }', '')}${B}`, `${TOP}${A}${CROP}${B}`, 4, 'the closing brace } is missing'],
  ['a bracket is open', `${TOP}${A}    subjects: [1, 2\n`, `${TOP}${A}    subjects: [1, 2]\n`, 4, 'the closing bracket ] is missing'],
  ['a brace too many', `${TOP}${A}${CROP.replace('}', '}}')}`, `${TOP}${A}${CROP}`, 4, 'there is a closing brace } too many'],
  ['no comma', `${TOP}${A}${CROP.replace(',', '')}`, `${TOP}${A}${CROP}`, 4, 'a comma is missing between two values'],
  ['a comma too many', `${TOP}${A}${CROP.replace(',', ',,')}`, `${TOP}${A}${CROP}`, 4, 'there is a comma too many'],
  ['indented too little', `${TOP}${A}   length: close-up\n`, `${TOP}${A}    length: close-up\n`, 4, 'this line does not stand under the key above it: begin it with 4 spaces'],
  ['indented too much', `${TOP}${A}     length: close-up\n`, `${TOP}${A}    length: close-up\n`, 3, 'the next line does not stand under the key above it: begin it with 4 spaces'],
  ['not indented', `${TOP}${A}length: close-up\n`, `${TOP}${A}    length: close-up\n`, 4, '"length" belongs to a frame: indent it as the other keys of its frame.'],
  ['a dash out of line', `${TOP}${A} - photo: b.jpg\n`, `${TOP}${A}${B}`, 4, 'this dash does not stand under the dash of the frame before it'],
  ['a colon in a text', `${TOP}${A}    note: client: wider\n`, `${TOP}${A}    note: "client: wider"\n`, 4, 'write note: "client: wider"'],
  ['two keys in a line', `${TOP}  - photo: a.jpg length: close-up\n`, `${TOP}${A}    length: close-up\n`, 3, 'length: begins a line of its own'],
  ['an odd beginning', `${TOP}  - photo: @a.jpg\n`, `${TOP}  - photo: "@a.jpg"\n`, 3, 'no text without quotes begins with @: write "@a.jpg"'],
  ['an apostrophe', `${TOP}  - photo: 'it's.jpg'\n`, `${TOP}  - photo: "it's.jpg"\n`, 3, 'the text goes on after its closing quote'],
  ['a key twice', `${TOP}${A}    note: x\n    note: y\n`, `${TOP}${A}    note: x\n`, 5, 'note stands here twice'],
]; // prettier-ignore

describe('a slip of the hand is told in words, in its line, with what to write', () => {
  it.each(SLIPS)('%s', (_, broken, mended, line, words) => {
    const { problems } = parseManifest(broken, []);
    const lines = new LineIndex(broken);
    const told = problems.find(({ message }) => message.includes(words));
    expect(told, problems.map(({ message }) => message).join('\n')).toBeDefined();
    expect(lines.positionAt(told!.range.start).line).toBe(line);
    expect(parseManifest(mended, []).problems).toEqual([]);
  });

  it('what is none of the usual slips keeps the sentence of the library', () => {
    const { problems } = parseManifest(`${TOP}${A}    note: !odd x\n`, []);
    expect(problems.map(({ message }) => message)).toEqual(['Broken YAML: unresolved tag: !odd.']);
  });
});
