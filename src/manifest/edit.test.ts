import { describe, expect, it } from 'vitest';
import type { FrameChange } from './edit.ts';
import { addAllow, editFrame, editFrames, setFinal, setFrameCrop, setLength, setStraighten } from './edit.ts';
import { parseManifest } from './parse.ts';
import { applyEdits } from './text-edit.ts';

const RULES = [{ id: 'joint-cut' }, { id: 'headroom' }];
const CROP = { x: 0.1, y: 0.0625, w: 0.8, h: 2 / 3 };
const NEW = '{ x: 0.1, y: 0.0625, w: 0.8, h: 0.6667 }';

function read(text: string): ReturnType<typeof parseManifest> {
  return parseManifest(text, RULES);
}

function framed(...lines: string[]): string {
  return ['selvedge: 1', 'frames:', ...lines, ''].join('\n');
}

/** What stands under `frames:` after the change of the first frame. */
function changed(lines: string[], change: FrameChange): string[] {
  const text = framed(...lines);
  return applyEdits(text, editFrame(read(text), 0, change))
    .split('\n')
    .slice(2, -1);
}

describe('setting a crop', () => {
  it.each<[string, string[], string[]]>([
    [
      'in braces',
      ['- photo: a.jpg', '  crop: {x: 0.5,y: .1, w: 1, h: 1} # c'],
      ['- photo: a.jpg', '  crop: {x: 0.1,y: 0.0625, w: 0.8, h: 0.6667} # c'],
    ],
    [
      'keeps numbers that are right as they are written',
      ['- photo: a.jpg', '  crop: { x: 1e-1, y: 0.06250, w: +0.8, h: 1 }'],
      ['- photo: a.jpg', '  crop: { x: 1e-1, y: 0.06250, w: +0.8, h: 0.6667 }'],
    ],
    [
      'on lines of its own',
      ['- photo: a.jpg', '  crop: # c', '    h: 1 # d', '', '    x: 0', '    y: 0', '    w: 1'],
      ['- photo: a.jpg', '  crop: # c', '    h: 0.6667 # d', '', '    x: 0.1', '    y: 0.0625', '    w: 0.8'],
    ],
    [
      'fills in what is missing',
      ['- photo: a.jpg', '  crop: { x: 0.1 }', '- photo: b.jpg'],
      ['- photo: a.jpg', '  crop: { x: 0.1, y: 0.0625, w: 0.8, h: 0.6667 }', '- photo: b.jpg'],
    ],
    [
      'fills in what is missing on lines',
      ['- photo: a.jpg', '  crop:', '    w: 1 # c', '    x: 0'],
      ['- photo: a.jpg', '  crop:', '    w: 0.8 # c', '    h: 0.6667', '    x: 0.1', '    y: 0.0625'],
    ],
    [
      'inserts it under photo',
      ['  - photo: a.jpg # c', '    final: false'],
      ['  - photo: a.jpg # c', `    crop: ${NEW}`, '    final: false'],
    ],
    [
      'inserts it in braces',
      ['- { photo: a.jpg, final: false } # c'],
      [`- { photo: a.jpg, crop: ${NEW}, final: false } # c`],
    ],
    ['replaces what is no crop', ['- photo: a.jpg', '  crop: whole # c'], ['- photo: a.jpg', `  crop: ${NEW} # c`]],
    [
      'replaces a list',
      ['- photo: a.jpg', '  crop:', '  - 1', '  - 2', '  final: false'],
      ['- photo: a.jpg', '  crop:', `   ${NEW}`, '  final: false'],
    ],
    [
      'fills an empty value',
      ['- photo: a.jpg', '  crop: # later', '  final: false'],
      ['- photo: a.jpg', `  crop: ${NEW} # later`, '  final: false'],
    ],
    [
      'keeps quotes around keys',
      ['- { "photo": "a.jpg", "crop": {"x":0,"y":0,"w":1,"h":1} }'],
      ['- { "photo": "a.jpg", "crop": {"x":0.1,"y":0.0625,"w":0.8,"h":0.6667} }'],
    ],
    [
      'away from a photo in block style',
      ['- photo: >-', '    a.jpg', '  final: false'],
      ['- photo: >-', '    a.jpg', '  final: false', `  crop: ${NEW}`],
    ],
    [
      'keeps an anchor that nobody uses',
      ['- photo: a.jpg', '  crop: &c { x: 0, y: 0, w: 1, h: 1 }'],
      ['- photo: a.jpg', `  crop: &c ${NEW}`],
    ],
    [
      'whose text others use, beside it',
      ['- photo: a.jpg', '  crop: &c { x: 0, y: 0, w: 1, h: 1 } # c', '- photo: b.jpg', '  crop: *c'],
      [
        '- photo: a.jpg',
        `  crop: ${NEW}`,
        '  x-crop: &c { x: 0, y: 0, w: 1, h: 1 } # c',
        '- photo: b.jpg',
        '  crop: *c',
      ],
    ],
    [
      'of which others use one number',
      ['- { photo: a.jpg, crop: { x: &n 0.2, y: 0, w: 1, h: 1 } }', '- { photo: b.jpg, straighten: *n }'],
      [
        `- { photo: a.jpg, crop: ${NEW}, x-crop: { x: &n 0.2, y: 0, w: 1, h: 1 } }`,
        '- { photo: b.jpg, straighten: *n }',
      ],
    ],
    [
      'of a frame that another merges',
      ['- &f { photo: a.jpg }', '- { <<: *f, photo: b.jpg }'],
      [`- &f { photo: a.jpg, crop: ${NEW} }`, '- { <<: *f, photo: b.jpg, crop: null }'],
    ],
    [
      'of a frame that another repeats',
      ['- &f { photo: a.jpg, crop: { x: 0, y: 0, w: 1, h: 1 } }', '- *f'],
      [`- &f { photo: a.jpg, crop: ${NEW} }`, '- { <<: *f, crop: { x: 0, y: 0, w: 1, h: 1 } }'],
    ],
    [
      'leaves broken YAML alone',
      ['- photo: a.jpg', '  crop: { x: 0', '- photo: b.jpg'],
      ['- photo: a.jpg', '  crop: { x: 0', '- photo: b.jpg'],
    ],
  ])('%s', (_, before, after) => {
    expect(changed(before, { crop: CROP })).toEqual(after);
  });

  it('given by an alias changes this frame only', () => {
    const text =
      'selvedge: 1\nx-c: &c { x: 0, y: 0, w: 1, h: 1 }\nframes: [{ photo: a.jpg, crop: *c }, { photo: b.jpg, crop: *c }]';
    expect(applyEdits(text, setFrameCrop(read(text), 1, CROP))).toBe(
      `selvedge: 1\nx-c: &c { x: 0, y: 0, w: 1, h: 1 }\nframes: [{ photo: a.jpg, crop: *c }, { photo: b.jpg, crop: ${NEW} }]`,
    );
  });

  it('writes only the numbers that a merge key does not give', () => {
    const text =
      'selvedge: 1\nx-c: &c { x: 0.1, y: 0, w: 0.8, h: 1 }\nframes:\n- photo: a.jpg\n  crop: { <<: *c, h: 0.5 }\n';
    expect(applyEdits(text, setFrameCrop(read(text), 0, CROP))).toContain('  crop: { <<: *c, y: 0.0625, h: 0.6667 }\n');
  });

  it('uses the line break of the place, and the end of the text', () => {
    const text = '\uFEFFselvedge: 1\r\nframes:\r\n- photo: a.jpg\r\n- photo: b.jpg';
    const both = new Map([0, 1].map((index): [number, FrameChange] => [index, { crop: CROP }]));
    expect(applyEdits(text, editFrames(read(text), both))).toBe(
      `\uFEFFselvedge: 1\r\nframes:\r\n- photo: a.jpg\r\n  crop: ${NEW}\r\n- photo: b.jpg\r\n  crop: ${NEW}`,
    );
  });

  it('that is there already changes nothing', () => {
    const text = framed('- photo: a.jpg', '  crop: { x: 0.1, y: 0.0625, w: 8e-1, h: 0.6667 }');
    expect(setFrameCrop(read(text), 0, CROP)).toEqual([]);
  });

  it('of a frame that is not there changes nothing', () => {
    expect(setFrameCrop(read(framed('- photo: a.jpg')), 7, CROP)).toEqual([]);
  });
});

describe('setting other values', () => {
  it('puts new keys in the order of the format', () => {
    const change: FrameChange = {
      final: true,
      allow: { headroom: 'tall hat' },
      straighten: -1.404,
      crop: CROP,
      length: 'close-up',
      note: 'n',
    };
    expect(changed(['- photo: a.jpg', '  compose: free'], change)).toEqual([
      '- photo: a.jpg',
      `  crop: ${NEW}`,
      '  straighten: -1.4',
      '  length: close-up',
      '  compose: free',
      '  allow: { headroom: "tall hat" }',
      '  note: "n"',
      '  final: true',
    ]);
  });

  it('has a function for each', () => {
    const manifest = read(framed('- { photo: a.jpg, straighten: 0, length: close-up, final: false }'));
    const results = [setStraighten(manifest, 0, 2), setLength(manifest, 0, 'half-length'), setFinal(manifest, 0, true)];
    expect(results.map(([edit]) => edit!.text)).toEqual(['2', 'half-length', 'true']);
  });

  it.each<[string, string[], string[]]>([
    [
      'beside others in braces',
      ['- photo: a.jpg', '  allow: { joint-cut: "x" }'],
      ['- photo: a.jpg', '  allow: { joint-cut: "x", headroom: "why" }'],
    ],
    [
      'beside others on lines',
      ['- photo: a.jpg', '  allow:', '    joint-cut: x # c', '  final: true'],
      ['- photo: a.jpg', '  allow:', '    joint-cut: x # c', '    headroom: "why"', '  final: true'],
    ],
    [
      'in place of an old reason',
      ["- { photo: a.jpg, allow: { headroom: 'old' } }"],
      ['- { photo: a.jpg, allow: { headroom: "why" } }'],
    ],
    ['into an empty map', ['- { photo: a.jpg, allow: {} }'], ['- { photo: a.jpg, allow: { headroom: "why"} }']],
  ])('adds a reason %s', (_, before, after) => {
    const text = framed(...before);
    expect(
      applyEdits(text, addAllow(read(text), 0, 'headroom', 'why'))
        .split('\n')
        .slice(2, -1),
    ).toEqual(after);
  });

  it('adds a reason to those that an alias gives', () => {
    const text = 'selvedge: 1\nx-r: &r { joint-cut: "x" }\nframes:\n- photo: a.jpg\n  allow: *r\n';
    expect(applyEdits(text, addAllow(read(text), 0, 'headroom', 'why'))).toContain(
      'allow: { joint-cut: "x", headroom: "why" }',
    );
  });

  it.each([
    [{ kind: 'ratio', a: 2, b: 3 } as const, '  aspect: "2:3"'],
    [{ kind: 'free' } as const, '  aspect: free'],
  ])('sets a shape', (aspect, line) => {
    expect(changed(['- photo: a.jpg'], { aspect })).toEqual(['- photo: a.jpg', line]);
    expect(changed(['- photo: a.jpg', line], { aspect })).toEqual(['- photo: a.jpg', line]);
  });

  it('sets an output’s own crop', () => {
    expect(changed(['- photo: a.jpg'], { deliver: { square: CROP } })).toEqual([
      '- photo: a.jpg',
      `  deliver: { square: ${NEW} }`,
    ]);
  });
});

describe('applyEdits', () => {
  it('keeps the order of insertions at one place', () => {
    const edits = ['1', '2'].map((text) => ({ start: 1, end: 1, text }));
    expect(applyEdits('ab', edits)).toBe('a12b');
  });

  it('throws when edits overlap', () => {
    expect(() =>
      applyEdits('abc', [
        { start: 0, end: 2, text: '' },
        { start: 1, end: 3, text: '' },
      ]),
    ).toThrow(RangeError);
  });
});
