import fc from 'fast-check';

/** Random manifests for property tests: every way of writing a frame that the format allows, mixed. */
export interface Sample {
  readonly text: string;
  readonly frames: number;
}

interface Style {
  readonly lineBreak: string;
  readonly mark: boolean;
  readonly indent: number;
  readonly newlineAtEnd: boolean;
  readonly list: 'block' | 'flow';
}

const PHOTOS = [
  'a.jpg',
  '"b c.jpg"',
  "'d''e.jpg'",
  'Möwe.jpg',
  '写真/0001.jpg',
  '0142.jpg',
  '"caf\\u00e9.jpg"',
  '2024',
];
const NUMBERS = ['0.1', '.25', '1e-1', '0.10', '+0.2', '0', '0.3333'];
const COMMENTS = ['', ' # keep me', '   # {x: 1}, [', ' #'];

/** A crop as one line of text that fits flow and block style. `*c` and `*d` are anchors of the header. */
const flowCrop: fc.Arbitrary<string> = fc.oneof(
  fc
    .tuple(...Array.from({ length: 4 }, () => fc.constantFrom(...NUMBERS)), fc.constantFrom('', ' '), fc.boolean())
    .map(([x, y, w, h, gap, quoted]) => {
      const names = quoted ? ['"x"', '"y"', "'w'", '"h"'] : ['x', 'y', 'w', 'h'];
      const values = [String(x), String(y), w === '0' ? '0.9' : String(w), h === '0' ? '0.8' : String(h)];
      const inside = names.map((name, at) => `${name}: ${values[at]!}`).join(`,${String(gap)} `);
      return `{${String(gap)}${inside}${String(gap)}}`;
    }),
  fc.constantFrom(
    '*c',
    '{ <<: *c, x: 0.01 }',
    '{ <<: [*d, *c] }',
    '{ x: 0.1, y: 0.2 }',
    '{}',
    '{ x: bad, y: 0, w: 1, h: 1 }',
  ),
  fc.constantFrom('{ x: *number, y: 0, w: 1, h: 1, x-own: [1, 2] }', '5', '[0.1, 0.2]', '"none"', '', 'null', '~'),
);

const entries: fc.Arbitrary<Record<string, string | undefined>> = fc.record(
  {
    crop: flowCrop,
    straighten: fc.constantFrom('-1.4', '0', '+2.50', '1e0', '0x2', '*number', '!!float 3', '"4"', ''),
    length: fc.constantFrom('three-quarter', '"close-up"', "'half-length'", 'wrong'),
    allow: fc.constantFrom(
      '{ joint-cut: "tucked in" }',
      '{}',
      '*reasons',
      '{ <<: *reasons }',
      '{joint-cut/left_wrist: why}',
    ),
    note: fc.constantFrom('plain words', '"a # b"', "'it''s'"),
    final: fc.constantFrom('true', 'false'),
    'x-mine': fc.constantFrom('{ deep: [1, { a: b }] }', '*c', 'free'),
  },
  { requiredKeys: [] },
);

interface FrameSample {
  readonly photo: string;
  readonly entries: Record<string, string | undefined>;
  readonly kind: 'block' | 'flow' | 'block crop' | 'alias' | 'merging' | 'block note';
  readonly anchor: boolean;
  readonly anchoredCrop: boolean;
  readonly comment: string;
  readonly photoLast: boolean;
}

const frameSample: fc.Arbitrary<FrameSample> = fc.record({
  photo: fc.constantFrom(...PHOTOS),
  entries,
  kind: fc.constantFrom('block', 'block', 'flow', 'block crop', 'alias', 'merging', 'block note'),
  anchor: fc.boolean(),
  anchoredCrop: fc.boolean(),
  comment: fc.constantFrom(...COMMENTS),
  photoLast: fc.boolean(),
});

const style: fc.Arbitrary<Style> = fc.record({
  lineBreak: fc.constantFrom('\n', '\r\n'),
  mark: fc.boolean(),
  indent: fc.constantFrom(0, 2, 4),
  newlineAtEnd: fc.boolean(),
  list: fc.constantFrom('block', 'block', 'block', 'flow'),
});

export const sample: fc.Arbitrary<Sample> = fc
  .tuple(style, fc.array(frameSample, { minLength: 1, maxLength: 6 }))
  .map(([chosen, frames]) => ({ text: write(chosen, frames), frames: frames.length }));

const HEADER = [
  '# a session # of tests',
  'selvedge: 1',
  "session: 'Boardwalk, late light'   # free text",
  'x-templates:',
  '  crop: &c { x: 0.05, y: 0.06, w: 0.7, h: 0.8 }',
  '  other: &d',
  '    w: 0.5 # half',
  '  number: &number 1',
  '  reasons: &reasons { headroom: "on purpose" }',
];

function write(chosen: Style, frames: readonly FrameSample[]): string {
  const lines = [...HEADER];
  const anchored: number[] = [];
  const crops: number[] = [];
  if (chosen.list === 'flow') {
    const items = frames.map((frame, at) => flowFrame(frame, at, anchored, crops));
    lines.push(`frames: [ ${items.join(',\n  ')} ] # end`);
  } else {
    lines.push('frames:');
    for (const [at, frame] of frames.entries()) {
      lines.push(...blockFrame(frame, at, anchored, crops).map((line) => ' '.repeat(chosen.indent) + line));
    }
  }
  const text = lines.join('\n') + (chosen.newlineAtEnd ? '\n' : '');
  return (chosen.mark ? '\uFEFF' : '') + text.replaceAll('\n', chosen.lineBreak);
}

function members(frame: FrameSample, at: number, crops: number[]): [string, string][] {
  const own = Object.entries(frame.entries).filter((each): each is [string, string] => each[1] !== undefined);
  const used = own.map(([key, value]): [string, string] => {
    if (key !== 'crop' || !value.startsWith('{') || value === '{}') return [key, value];
    const before = crops.at(-1);
    if (!frame.anchoredCrop) return [key, before !== undefined && at % 2 === 1 ? `*crop${before}` : value];
    crops.push(at);
    return [key, `&crop${at} ${value}`];
  });
  const photo: [string, string] = ['photo', frame.photo];
  return frame.photoLast ? [...used, photo] : [photo, ...used];
}

function flowFrame(frame: FrameSample, at: number, anchored: number[], crops: number[]): string {
  const before = anchored.at(-1);
  if (frame.kind === 'alias' && before !== undefined) return `*frame${before}`;
  const merge = frame.kind === 'merging' && before !== undefined ? [`<<: *frame${before}`] : [];
  const inside = [...merge, ...members(frame, at, crops).map(([key, value]) => `${key}: ${value}`)].join(', ');
  if (!frame.anchor) return `{ ${inside} }`;
  anchored.push(at);
  return `&frame${at} { ${inside} }`;
}

function blockFrame(frame: FrameSample, at: number, anchored: number[], crops: number[]): string[] {
  const before = anchored.at(-1);
  if (frame.kind === 'alias' && before !== undefined) return [`- *frame${before}${frame.comment}`];
  if (frame.kind === 'flow') return [`- ${flowFrame(frame, at, anchored, crops)}${frame.comment}`];
  const lines: string[] = [];
  if (frame.kind === 'merging' && before !== undefined) lines.push(`<<: *frame${before}`);
  for (const [key, value] of members(frame, at, crops)) {
    if (key === 'note' && frame.kind === 'block note')
      lines.push('note: |', '  two lines # no comment', '    of text', '');
    else if (key === 'crop' && frame.kind === 'block crop' && value.startsWith('&')) {
      lines.push(
        `crop: ${value.split(' ')[0]!}`,
        '  x: 0.1   # left',
        '',
        '  "y": .2',
        '  w: 5e-1',
        '  # above h',
        '  h: 0.5',
      );
    } else if (key === 'crop' && frame.kind === 'block crop')
      lines.push('crop: # said below', '  y: 0.2', '  w: 0.5', '  x: 0.1');
    else lines.push(`${key}: ${value}${frame.comment}`);
  }
  if (frame.anchor) {
    anchored.push(at);
    return [`- &frame${at}`, ...lines.map((line) => (line === '' ? '' : `  ${line}`))];
  }
  return lines.map((line, place) => (line === '' ? '' : `${place === 0 ? '- ' : '  '}${line}`));
}
