import { describe, expect, it } from 'vitest';
import type { Frame, Manifest } from './manifest.ts';
import { parseManifest, readManifest } from './parse.ts';
import { framed, names, only, textAt } from './testing/reading.ts';

const RULES = [
  { id: 'joint-cut' },
  { id: 'narrow-place' },
  { id: 'headroom', settings: { least: { default: 4, minimum: 0, maximum: 20, unit: '% of the height', help: '…' } } },
];

function read(text: string): Manifest {
  return parseManifest(text, RULES);
}

const WHOLE = `selvedge: 1
session: Boardwalk, late light        # free text
photos: proofs
aspect: original
compose: thirds
rules:
  narrow-place: off
  headroom: { severity: error, least: 5 }
deliver:
  album:  { aspect: "2:3", long: 300mm, ppi: 300, bleed: 3mm, safe: 0mm, name: "{session}-{stem}-{output}" }
  wall:   { paper: A3, ppi: 150 }
  square: { aspect: "1:1", long: 2048px, format: jpeg, quality: 90 }
frames:
  - photo: 0142.jpg
    crop: { x: 0.1, y: 0.06, w: 0.8, h: 0.8 }
    straighten: -1.4
    aspect: "2:3"                     # this frame only
    length: three-quarter
    subjects: [1, 2]
    compose: centred
    allow: { joint-cut/left_wrist: "hand tucked in the pocket" }
    note: "client likes the wider one"
    final: true
    deliver: { square: { x: 0.2, y: 0.1, w: 0.54, h: 0.36 } }
  - photo: 0142.jpg
`;

describe('a whole manifest', () => {
  const manifest = read(WHOLE);
  const [first, second] = manifest.frames as [Frame, Frame];

  it('has no problem', () => {
    expect(manifest.problems).toEqual([]);
  });

  it('gives the session its header', () => {
    expect(manifest.session?.value).toBe('Boardwalk, late light');
    expect(textAt(manifest, manifest.session!.range)).toBe('Boardwalk, late light');
    expect(manifest.photos?.value).toBe('proofs');
    expect(manifest.aspect?.value).toEqual({ kind: 'original' });
    expect(manifest.compose?.value).toBe('thirds');
    expect(manifest.rules.get('narrow-place')?.severity?.value).toBe('off');
    expect(manifest.rules.get('headroom')?.severity?.value).toBe('error');
    expect(manifest.rules.get('headroom')?.settings.get('least')?.value).toBe(5);
    expect(textAt(manifest, manifest.rules.get('headroom')!.settings.get('least')!.range)).toBe('5');
  });

  it('gives outputs with their units', () => {
    const album = manifest.deliver.get('album')!;
    expect(album.aspect?.value).toEqual({ kind: 'ratio', a: 2, b: 3 });
    expect(album.long?.value).toEqual({ amount: 300, unit: 'mm' });
    expect(album.safe?.value).toEqual({ amount: 0, unit: 'mm' });
    expect(album.ppi?.value).toBe(300);
    expect(manifest.deliver.get('wall')?.paper?.value).toBe('A3');
    expect(manifest.deliver.get('square')?.long?.value).toEqual({ amount: 2048, unit: 'px' });
    expect(textAt(manifest, manifest.deliver.get('wall')!.range)).toBe('{ paper: A3, ppi: 150 }');
  });

  it('gives frames with the exact place of every value', () => {
    expect(manifest.frameCount).toBe(2);
    expect([first.crop!.value.x, first.crop!.value.y, first.crop!.value.w, first.crop!.value.h]).toEqual([
      0.1, 0.06, 0.8, 0.8,
    ]);
    expect(textAt(manifest, first.crop!.range)).toBe('{ x: 0.1, y: 0.06, w: 0.8, h: 0.8 }');
    expect(textAt(manifest, first.crop!.key)).toBe('crop');
    expect(textAt(manifest, first.crop!.value.members.y.range)).toBe('0.06');
    expect(textAt(manifest, first.straighten!.range)).toBe('-1.4');
    expect(first.subjects?.value).toEqual([1, 2]);
    expect(first.length?.value).toBe('three-quarter');
    expect(first.final?.value).toBe(true);
    expect(first.note?.value).toBe('client likes the wider one');
    const allowed = first.allow.get('joint-cut/left_wrist')!;
    expect([allowed.rule, allowed.joint, allowed.value]).toEqual([
      'joint-cut',
      'left_wrist',
      'hand tucked in the pocket',
    ]);
    expect(textAt(manifest, allowed.key)).toBe('joint-cut/left_wrist');
    expect(first.deliver.get('square')?.value.w).toBe(0.54);
    expect(textAt(manifest, first.range).startsWith('photo: 0142.jpg')).toBe(true);
    expect(textAt(manifest, first.range).endsWith('h: 0.36 } }')).toBe(true);
  });

  it('numbers the frames of one photo', () => {
    expect(first.name).toBe('0142.jpg');
    expect(second.name).toBe('0142.jpg#2');
    expect(second.occurrence).toBe(2);
    expect(second.crop).toBeUndefined();
  });
});

describe('values that do not fit', () => {
  it.each([
    ['crop: { x: 0, y: 0, w: 2.4, h: 1 }', 'crop.w is 2.4: a width is a fraction of the photo', '2.4'],
    ['crop: { x: 0, y: 0, w: 80, h: 1 }', 'if you mean 80 %, write 0.8', '80'],
    ['crop: { x: 0, y: 0, w: 0, h: 1 }', 'above 0', '0'],
    ['crop: { x: .nan, y: 0, w: 1, h: 1 }', 'crop.x is .nan', '.nan'],
    ['crop: { x: -.inf, y: 0, w: 1, h: 1 }', 'crop.x is -.inf', '-.inf'],
    ['crop: { x: 1e400, y: 0, w: 1, h: 1 }', 'crop.x is 1e400', '1e400'],
    ['crop: { x: "0.1", y: 0, w: 1, h: 1 }', 'take the quotes off', '"0.1"'],
    ['crop: { x: 0,1, y: 0, w: 0.8, h: 0.8 }', 'crop.x is "0,1", not a number: a place is', '0,1'],
    ['crop: {x: 0, y: -0,05,w: 0.8, h: 0.8}', 'numbers have a point, not a comma', '-0,05'],
    ['crop: { x: 0, y: 0, w: 0.8, h: 0,8 }', 'crop.h is "0,8", not a number: a height is', '0,8'],
    ["crop: { x: '0,1', y: 0, w: 1, h: 1 }", 'a point, not a comma', "'0,1'"],
    ['crop: { x: 0.1, y: 0.2 }', 'crop: w, h are missing', 'x'],
    ['crop: [0, 0, 1, 1]', 'crop cannot be a list', '[0, 0, 1, 1]'],
    ['crop: whole', 'crop is "whole": a crop is { x: …', 'whole'],
    ['crop: *nowhere', 'No anchor of this name', '*nowhere'],
    ['straighten: 46', 'straighten is 46: a picture is turned by −45 to 45', '46'],
    ['straighten: yes', 'straighten is "yes", not a number', 'yes'],
    ['final: yes', 'final is "yes": write true or false', 'yes'],
    ['length: full lenght', 'did you mean full-length?', 'full lenght'],
    ['aspect: 2x3', 'did you mean "2:3"?', '2x3'],
    ['aspect: 0:3', 'a shape is original, free or A:B', '0:3'],
    ['subjects: [0]', 'a subject is a person’s number', '0'],
    ['subjects: [1.5]', 'The first entry of subjects is 1.5', '1.5'],
    ['subjects: []', 'subjects is empty', '[]'],
    ['subjects: 1', 'subjects is 1: subjects are a list', '1'],
    ['allow: { joint-cut: "" }', 'allow.joint-cut needs a reason', '""'],
    ['allow: { joint-cut: }', 'allow.joint-cut needs a reason', 'joint-cut'],
  ])('%s', (line, message, at) => {
    const manifest = read(framed('  - photo: a.jpg', `    ${line}`, '    note: kept', '  - photo: b.jpg'));
    const problem = only(manifest);
    expect(problem.message.replaceAll("'", '’')).toContain(message.replaceAll("'", '’'));
    expect(problem.severity).toBe('error');
    expect(problem.frame).toBe(0);
    expect(textAt(manifest, problem.range)).toBe(at);
    // The rest of the frame, and the next one, are there.
    expect(manifest.frames.map(({ name, note }) => [name, note?.value])).toEqual([
      ['a.jpg', 'kept'],
      ['b.jpg', undefined],
    ]);
    const key = line.split(':')[0]!;
    expect(manifest.frames[0]![key as 'crop']).toEqual(key === 'allow' ? new Map() : undefined);
  });

  it('a corner beyond the photo is for the rules to say', () => {
    const manifest = read(framed('  - { photo: a.jpg, crop: { x: -0.2, y: 0.5, w: 1.4, h: 0.9 } }'));
    expect(manifest.problems).toEqual([]);
  });

  it('a key without a value is a warning, null is not set', () => {
    const manifest = read(framed('  - photo: a.jpg', '    crop:', '    length: ~'));
    expect(only(manifest)).toMatchObject({ code: 'no-value', severity: 'warning' });
    expect(manifest.frames[0]?.length).toBeUndefined();
  });

  it.each([
    ['frames: []\nselvedge: 2', 'selvedge is 2: this program reads version 1', 'error'],
    ['frames: []', 'selvedge is missing: add selvedge: 1', 'error'],
    ['selvedge: 1', 'frames is missing', 'error'],
    ['selvedge: 1\nframes:', 'frames has no value: write one, such as [{ photo: 0142.jpg }]', 'error'],
    ['selvedge: 1\nframes: {}', 'frames cannot be a map', 'error'],
    ['selvedge: 1\nframes: []\nsesion: x', 'Did you mean session?', 'warning'],
    ['selvedge: 1\nframes: []\nrules: { headrom: off }', 'Did you mean headroom?', 'warning'],
    ['selvedge: 1\nframes: []\nrules: { headroom: of }', 'rules.headroom is "of"', 'error'],
    ['selvedge: 1\nframes: []\nrules: { headroom: { least: 21 } }', 'from 0 to 20', 'error'],
    ['selvedge: 1\nframes: []\nrules: { headroom: { lest: 3 } }', 'Did you mean least?', 'warning'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { aspect: free, long: 30 } }', 'say the unit', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { aspect: free, long: 12inches } }', 'did you mean 12in?', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { aspect: free, long: 0mm } }', 'must be above 0', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { paper: 13x18 } }', 'is "13x18": did you mean 13x18cm?', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { aspect: free, paper: A3 } }', 'give aspect or paper, not both', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { long: 3cm } }', 'give aspect or paper', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { aspect: free, name: "{stm}" } }', 'deliver.a.name', 'error'],
    ['selvedge: 1\nframes: []\ndeliver: { a: { aspect: free, name: "../{stem}" } }', 'deliver.a.name', 'error'],
    ['selvedge: 1\nframes: [{ photo: a.jpg, deliver: { b: { x: 0, y: 0, w: 1, h: 1 } } }]', 'no output "b"', 'warning'],
    [
      'selvedge: 1\nframes: [{ photo: a.jpg, allow: { jont-cut/left_knee: why } }]',
      'Did you mean joint-cut?',
      'warning',
    ],
    ['selvedge: 1\nframes: [{ photo: ../a.jpg }]', 'no ..', 'error'],
    ['selvedge: 1\nframes: [{ photo: /a.jpg }]', 'relative', 'error'],
    ['selvedge: 1\nframes: [{ photo: "a\\\\b.jpg" }]', 'with / between', 'error'],
    ['selvedge: 1\nselvedge: 1\nframes: []', 'selvedge stands here twice', 'error'],
  ])('%s', (text, message, severity) => {
    const problem = only(read(text));
    expect(problem.message).toContain(message);
    expect(problem.severity).toBe(severity);
  });

  it('suggests what to write', () => {
    expect(only(read(framed('  - { photo: a.jpg, crpo: 1 }'))).suggestion).toBe('crop');
    expect(only(read(framed('  - { photo: a.jpg, compose: centered }'))).suggestion).toBe('centred');
  });

  it('keys of one’s own are never looked at', () => {
    const own = ['x-mine: { a: [*b] }', '    x-note: ', '    crop: { x: 0, y: 0, w: 1, h: 1, x-from: me }'];
    expect(read(framed('  - photo: a.jpg', `    ${own[0]!}`, ...own.slice(1))).problems).toEqual([]);
  });

  it('an entry without a photo is counted and skipped', () => {
    const manifest = read(framed('  - crop: { x: 0, y: 0, w: 1, h: 1 }', '  - a.jpg', '  -', '  - photo: b.jpg'));
    expect(manifest.frameCount).toBe(4);
    expect(names(manifest)).toEqual(['3 b.jpg']);
    expect(manifest.problems.map(({ frame }) => frame)).toEqual([0, 1, 2]);
  });

  it('of a key that stands twice the first counts', () => {
    const manifest = read(framed('  - photo: a.jpg', '    straighten: 1', '    straighten: 2'));
    expect(only(manifest).code).toBe('duplicate-key');
    expect(manifest.frames[0]?.straighten?.value).toBe(1);
  });
});

describe('ways of writing', () => {
  it('a byte order mark and CRLF shift nothing', () => {
    const manifest = read(`\uFEFF${WHOLE.replaceAll('\n', '\r\n')}`);
    expect(manifest.problems).toEqual([]);
    expect(textAt(manifest, manifest.frames[0]!.crop!.range)).toBe('{ x: 0.1, y: 0.06, w: 0.8, h: 0.8 }');
    expect(textAt(manifest, manifest.frames[1]!.range)).toBe('photo: 0142.jpg');
  });

  it('names outside ASCII are as they are written', () => {
    const manifest = read(framed('  - photo: 写真/möwe 1.jpg', '  - photo: "caf\\u00e9.jpg"', '  - photo: 2024'));
    expect(manifest.frames.map(({ name }) => name)).toEqual(['写真/möwe 1.jpg', 'café.jpg', '2024']);
    expect(textAt(manifest, manifest.frames[0]!.photo.range)).toBe('写真/möwe 1.jpg');
  });

  it('aliases and merge keys give their values, seen where they are used', () => {
    const manifest = read(
      ['selvedge: 1', 'x-c: &c { x: 0, y: 0, w: 0.5, h: 1 }', 'frames:', '  - &f', '    photo: a.jpg', '    crop: *c',
        '  - { <<: *f, photo: b.jpg, crop: { <<: *c, x: 0.25 } }', '  - *f', ''].join('\n'), // prettier-ignore
    );
    expect(manifest.problems).toEqual([]);
    expect(manifest.frames.map(({ name, crop }) => [name, crop!.value.x, crop!.value.w])).toEqual([
      ['a.jpg', 0, 0.5],
      ['b.jpg', 0.25, 0.5],
      ['a.jpg#2', 0, 0.5],
    ]);
    expect(textAt(manifest, manifest.frames[0]!.crop!.range)).toBe('*c');
    expect(textAt(manifest, manifest.frames[0]!.crop!.origin!)).toBe('{ x: 0, y: 0, w: 0.5, h: 1 }');
    expect(textAt(manifest, manifest.frames[1]!.crop!.value.members.w.range)).toBe('*c');
    expect(textAt(manifest, manifest.frames[2]!.crop!.range)).toBe('*f');
    expect(manifest.shared.map((range) => textAt(manifest, range).slice(0, 5))).toEqual(['{ x: ', 'photo']);
  });

  it('a few aliases cannot stand for millions', () => {
    const letters = 'abcdefghijklmnopqrstuvwxyz';
    const doubling = Array.from(letters.slice(1)).map((name, at) => {
      const before = letters[at]!;
      return `x-${name}: &${name} { <<: [${Array<string>(9).fill(`*${before}`).join(', ')}] }`;
    });
    const text = [
      'selvedge: 1',
      'x-a: &a { final: true }',
      ...doubling,
      'frames:',
      '  - { <<: *z, photo: a.jpg }',
      '  - photo: b.jpg',
      '',
    ];
    const manifest = read(text.join('\n'));
    expect(names(manifest)).toEqual(['0 a.jpg', '1 b.jpg']);
    expect(only(manifest).code).toBe('too-many-aliases');
  });

  it('an anchor that holds its own alias ends', () => {
    const manifest = read(
      framed('  - &a', '    <<: *a', '    photo: a.jpg', '    crop: &c { x: *c, <<: *c }', '  - photo: b.jpg'),
    );
    expect(names(manifest)).toEqual(['0 a.jpg', '1 b.jpg']);
  });
});

describe('a manifest of which is not kept how it is written', () => {
  it.each([
    ['whole', WHOLE],
    ['broken', `${WHOLE}  - photo: [`],
    ['empty', ''],
  ])('says the same, and how it is written when asked: %s', (_, text) => {
    const { written, writtenFrames, ...said } = readManifest(text, RULES);
    const { written: kept, writtenFrames: keptFrames, ...expected } = read(text);
    expect(said).toEqual(expected);
    expect(written?.node.range).toEqual(kept?.node.range);
    const ranges = (frames: Manifest['writtenFrames']) => said.frames.map(({ index }) => frames.get(index)!.node.range);
    expect(ranges(writtenFrames)).toEqual(ranges(keptFrames));
  });
});
