import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Frame, Manifest } from './manifest.ts';
import { sample } from './manifest-samples.ts';
import { parseManifest } from './parse.ts';
import { framed, names, only, textAt } from './testing/reading.ts';

const RULES = [{ id: 'headroom' }];

function read(text: string): Manifest {
  return parseManifest(text, RULES);
}

describe('broken YAML', () => {
  it.each<[string, string[], string[], string[]]>([
    [
      'a bracket left open',
      ['  - photo: a.jpg', '    crop: { x: 0.1, y: 0', '    straighten: 1', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      ['crop'],
    ],
    [
      'a wrong bracket',
      ['  - photo: a.jpg', '    crop: { x: 0.1 ]', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      ['crop'],
    ],
    [
      'a quote left open',
      ['  - photo: a.jpg', '    note: "oh', '    final: true', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      ['note'],
    ],
    ['a photo in half quotes', ['  - photo: "a.jpg', '    final: true', '  - photo: b.jpg'], ['1 b.jpg'], []],
    [
      'a colon in plain text',
      ['  - photo: a.jpg', '    note: wider: yes', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      ['note'],
    ],
    [
      'a reserved character',
      ['  - photo: a.jpg', '    note: @home', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      ['note'],
    ],
    [
      'too little indentation',
      ['  - photo: a.jpg', '   straighten: 1', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      [],
    ],
    [
      'too much indentation',
      ['  - photo: a.jpg', '      straighten: 1', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      [],
    ],
    ['a tab', ['  - photo: a.jpg', '\tstraighten: 1', '  - photo: b.jpg'], ['0 a.jpg', '1 b.jpg'], []],
    ['a key without a colon', ['  - photo: a.jpg', '    final', '  - photo: b.jpg'], ['0 a.jpg', '1 b.jpg'], []],
    [
      'an entry in braces left open',
      ['  - { photo: a.jpg, note: "x" ', '  - photo: b.jpg'],
      ['0 a.jpg', '1 b.jpg'],
      ['note'],
    ],
    [
      'an entry further left',
      ['  - photo: a.jpg', '- photo: b.jpg', '  - photo: c.jpg'],
      ['0 a.jpg', '1 b.jpg', '2 c.jpg'],
      [],
    ],
    [
      'an entry further right',
      ['  - photo: a.jpg', '   - photo: b.jpg', '  - photo: c.jpg'],
      ['0 a.jpg', '1 b.jpg', '2 c.jpg'],
      [],
    ],
  ])('%s hides no other frame', (_, lines, expected, unread) => {
    const manifest = read(framed(...lines));
    expect(manifest.problems.length).toBeGreaterThan(0);
    expect(manifest.problems.every(({ severity }) => severity === 'error')).toBe(true);
    expect(names(manifest)).toEqual(expected);
    expect([...manifest.frames[0]!.unread.keys()]).toEqual(unread);
    for (const frame of manifest.frames) expect(textAt(manifest, frame.photo.range)).toBe(frame.photo.value);
  });

  it('a recovered value stands where it is written', () => {
    const manifest = read(framed('  - photo: a.jpg', '   straighten: 1', '    crop: { x: 0, y: 0.5, w: 1, h: 0.25 }'));
    const [frame] = manifest.frames as [Frame];
    expect(textAt(manifest, frame.straighten!.range)).toBe('1');
    expect(textAt(manifest, frame.crop!.value.members.h.range)).toBe('0.25');
  });

  it('in the header leaves the frames, and says what is left out', () => {
    const manifest = read('selvedge: 1\nsession: "late\nrules: { headroom: off }\nframes:\n  - photo: a.jpg\n');
    expect(names(manifest)).toEqual(['0 a.jpg']);
    expect(only(manifest).message).toContain('"session" is left out');
    expect(manifest.rules.get('headroom')?.severity?.value).toBe('off');
  });

  it('a tab is named', () => {
    const problem = only(read(framed('\t- photo: a.jpg')));
    expect(problem.code).toBe('tab');
    expect(problem.message).toContain('indent with spaces');
  });

  it('a second document is not read', () => {
    const manifest = read(`${framed('  - photo: a.jpg')}---\nframes: []\n`);
    expect(only(manifest).code).toBe('several-documents');
    expect(names(manifest)).toEqual(['0 a.jpg']);
  });

  it.each([
    ['', 'empty'],
    ['# only a comment\n', 'empty'],
    ['\uFEFF', 'empty'],
    ['- photo: a.jpg\n', 'not-a-map'],
    ['just words', 'not-a-map'],
  ])('%j is no manifest', (text, code) => {
    expect(only(read(text)).code).toBe(code);
  });

  it('one damaged frame costs no other its values', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 6 }),
        fc.nat(5),
        fc.constantFrom(
          'crop: { x: 0',
          'note: "x',
          "note: 'x",
          'crop: [',
          'note: a: b',
          'note: %',
          'crop: }',
          'final: true]',
          '\tfinal: true',
        ),
        (count, place, damage) => {
          const broken = place % count;
          const lines = Array.from({ length: count }, (_, at) => [
            `  - photo: ${at}.jpg`,
            `    crop: { x: 0.${at}, y: 0, w: 1, h: 1 }`,
            ...(at === broken ? [`    ${damage}`] : []),
            `    straighten: ${at}`,
          ]);
          const { frames } = read(framed(...lines.flat()));
          expect(frames.map(({ name }) => name)).toEqual(lines.map((_, at) => `${at}.jpg`));
          for (const frame of frames) {
            expect([frame.crop?.value.x, frame.straighten?.value]).toEqual([frame.index / 10, frame.index]);
          }
        },
      ),
    );
  });
});

describe('any text', () => {
  const anyText = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 200 }),
    fc
      .array(
        fc.constantFrom(
          'frames:',
          '- photo: a',
          '\n',
          '  ',
          '\t',
          '{',
          '}',
          '[',
          ']',
          '"',
          "'",
          '*a',
          '&a ',
          '<<: ',
          ': ',
          ',',
          '|',
          '>',
          '#',
          '---',
          '\r\n',
          '!',
          '%',
          '? ',
          'crop',
          '\uFEFF',
        ),
      )
      .map((parts) => parts.join('')),
  );
  const damaged = fc
    .tuple(sample, fc.nat(), fc.constantFrom('"', '{', '\t', '\n', ': ', '[', '&', '*', ''))
    .map(([{ text }, at, put]) => {
      const place = at % text.length;
      return text.slice(0, place) + put + text.slice(place + 1);
    });

  it('is read without an exception, every range inside the text', () => {
    fc.assert(
      fc.property(fc.oneof(anyText, damaged), (text) => {
        const manifest = read(text);
        const frames = manifest.frames.flatMap(({ range, photo, crop }) => [range, photo.range, crop?.range ?? range]);
        for (const { start, end } of [...manifest.problems.map(({ range }) => range), ...frames]) {
          expect(start).toBeGreaterThanOrEqual(0);
          expect(end).toBeGreaterThanOrEqual(start);
          expect(end).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: 500 },
    );
  });
});
