import fc from 'fast-check';
import type { TextEdit } from './text-edit.ts';

/** One edit for whatever text it meets, for property tests. */
export type AnyEdit = (text: string) => TextEdit;

const WORD = /[\p{L}\p{N}_.+-]+/gu;
const NUMBER = /(?<=[:[] )-?[0-9.]+/g;
/** What breaks YAML, mends it, or means something else in another place. */
const PIECES = [
  '"', "'", '#', ' #', ': ', ':', ',', '{', '}', '[', ']', '&a ', '*a', '*c', '<<: *c', '!', '%', '|', '>', '-', '- ', '? ',
  '\n', '\r\n', '\n  ', '\t', ' ', '---\n', '...\n', '\uFEFF', 'é', '写', '😀', '~', 'x-', '0', '1', 'null', 'true',
]; // prettier-ignore
const LINES = [
  '  - photo: added.jpg',
  '- photo: added.jpg',
  '  - { photo: 0142.jpg, crop: { x: 0, y: 0, w: 1, h: 1 } }',
  '    crop: { x: 0.1, y: 0.1, w: 0.8, h: 0.8 }',
  '    crop: { x: 0.1, x: 0.2, y: 0.1, w: 0.8, h: 0.8 }',
  '    straighten: 1.5',
  '    subjects: [1, 7]',
  '  - *frame0',
  '    crop: *c',
  '    allow: { joint-cut: meant }',
  '    aspect: "2:3"',
  '  # a comment',
  'aspect: free',
  'compose: centred',
  'rules: { headroom: off, joint-cut: { severity: error } }',
  'deliver: { square: { aspect: "1:1" } }',
  '',
];

/** Inside a word or number, or at one of its ends. */
function typing(where: RegExp, puts: fc.Arbitrary<string>): fc.Arbitrary<AnyEdit> {
  return fc.tuple(fc.nat(), fc.nat(), fc.nat(2), puts).map(([which, at, removed, put]) => (text) => {
    const words = [...text.matchAll(where)];
    const word = words[which % Math.max(1, words.length)];
    if (!word) return { start: 0, end: 0, text: put };
    const start = word.index + (at % (word[0].length + 1));
    return { start, end: Math.min(start + removed, word.index + word[0].length), text: put };
  });
}

const inNumber = typing(NUMBER, fc.constantFrom('', '1', '5', '1', '5', '25', '.', '-'));
const inWord = typing(WORD, fc.constantFrom('', '1', '.', '-', 'a', 'é', '0.4', 'ab cd', '写', ' ', '😀'));

/** A whole word or number is replaced. */
const wholeWord: fc.Arbitrary<AnyEdit> = fc
  .tuple(fc.nat(), fc.constantFrom('0.5', '0.25', '-1.2', 'three-quarter', 'x', '', 'true', '*c', '0142.jpg', '99'))
  .map(([which, put]) => (text) => {
    const words = [...text.matchAll(WORD)];
    const word = words[which % Math.max(1, words.length)];
    return word ? { start: word.index, end: word.index + word[0].length, text: put } : { start: 0, end: 0, text: put };
  });

/** Anything anywhere. */
const anywhere: fc.Arbitrary<AnyEdit> = fc
  .tuple(fc.nat(), fc.nat(6), fc.oneof(fc.constantFrom(...PIECES), fc.constant('')))
  .map(([at, removed, put]) => (text) => {
    const start = at % (text.length + 1);
    return { start, end: Math.min(text.length, start + removed), text: put };
  });

/** A line is put in, taken out or replaced. */
const line: fc.Arbitrary<AnyEdit> = fc
  .tuple(fc.nat(), fc.constantFrom('put', 'take', 'replace'), fc.constantFrom(...LINES))
  .map(([which, what, put]) => (text) => {
    const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
    const start = starts[which % starts.length]!;
    const next = text.indexOf('\n', start);
    const end = what === 'put' ? start : next === -1 ? text.length : next + 1;
    const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
    return { start, end, text: what === 'take' ? '' : put + lineBreak };
  });

/** Every kind of edit; most are inside words, as typing is. */
const anyEdit: fc.Arbitrary<AnyEdit> = fc.oneof(
  { weight: 10, arbitrary: inNumber },
  { weight: 4, arbitrary: inWord },
  { weight: 2, arbitrary: wholeWord },
  { weight: 2, arbitrary: anywhere },
  { weight: 2, arbitrary: line },
);

/** What somebody does to a text: an edit, taken back at once or not. */
export interface Step {
  readonly edit: AnyEdit;
  readonly undo: boolean;
}

export const steps = (maxLength: number): fc.Arbitrary<Step[]> =>
  fc.array(fc.record({ edit: anyEdit, undo: fc.boolean() }), { minLength: 1, maxLength });

/** The edits of one step for the text as it is: one, or one and its opposite. */
export function editsOf({ edit, undo }: Step, text: string): TextEdit[] {
  const done = edit(text);
  const back = { start: done.start, end: done.start + done.text.length, text: text.slice(done.start, done.end) };
  return undo ? [done, back] : [done];
}

const CROP = '{ x: 0.1, y: 0.06, w: 0.8, h: 0.8 }';
const FRAMES = [
  [`crop: ${CROP}`, 'straighten: -1.4'],
  [`crop: ${CROP} # as asked`, 'length: three-quarter', 'note: client likes the wider one'],
  ['crop:', '  x: 0.1', '  "y": 0.06 # top', '  w: 0.8', '  h: 0.8', 'aspect: "2:3"'],
  ['crop: *c', 'straighten: 1'],
  [`crop: &own ${CROP}`],
  [`crop: ${CROP}`, 'subjects: [1, 2]', 'allow: { joint-cut/left_wrist: "hand in the pocket", headroom: meant so }'],
  [`crop: ${CROP}`, 'compose: centred', 'deliver: { album: { x: 0.2, y: 0.1, w: 0.54, h: 0.36 } }', 'final: true'],
  ['note: |', '  two lines', '  of text', 'straighten: 2.5'],
  [],
];

/** A manifest in order, as somebody writes it who knows YAML: most frames stand on their own. */
export const tidyManifest: fc.Arbitrary<string> = fc
  .record({
    frames: fc.array(fc.tuple(fc.nat(FRAMES.length - 1), fc.nat(6)), { minLength: 1, maxLength: 7 }),
    lineBreak: fc.constantFrom('\n', '\r\n'),
    indent: fc.constantFrom('', '  '),
    mark: fc.constantFrom('', '\uFEFF', '---\n'),
    last: fc.constantFrom([], ['session: Möwe 写真'], ['# end']),
  })
  .map(({ frames, lineBreak, indent, mark, last }) => {
    const entries = frames.flatMap(([kind, photo]) =>
      [`- photo: ${photo}é.jpg`, ...FRAMES[kind]!.map((entry) => `  ${entry}`)].map((entry) => indent + entry),
    );
    const header = ['selvedge: 1', `x-crop: &c ${CROP}`, 'compose: thirds', 'deliver: { album: { aspect: "2:3" } }'];
    return mark + [...header, 'frames:', ...entries, ...last, ''].join('\n').replaceAll('\n', lineBreak);
  });
