import { describe, expect, it } from 'vitest';
import { applyEdits } from '../manifest/text-edit.ts';
import { parseManifest } from '../manifest/parse.ts';
import { standing } from '../people/testing/standing.ts';
import { RULE_CATALOGUE } from './file-rules.ts';
import { addLength, lengthSteps } from './length-step.ts';
import { madeSession } from './testing/made-session.ts';

const PEOPLE = { 'a.jpg': [standing({})], 'b.jpg': [standing({})] };

describe('another length of a photo', () => {
  it('is one of each that fits but the frame’s own', () => {
    const made = madeSession('selvedge: 1\nframes:\n- photo: a.jpg\n', PEOPLE);
    const { tighter, wider, others } = lengthSteps(made, made.manifest.frames[0]!);
    expect(others.map(({ length }) => length)).toEqual([
      'three-quarter',
      'half-length',
      'head-and-shoulders',
      'close-up',
    ]);
    expect(tighter).toEqual(others[0]);
    expect(wider).toBeUndefined();
  });

  it.each([['\n'], ['\r\n']])(
    'becomes a frame after this one, with its shape and people, and no other byte changes',
    (lineBreak) => {
      const text = [
        'selvedge: 1',
        'frames:',
        '  # full',
        '  - photo: a.jpg # all of it',
        '    straighten: -1.5',
        '    aspect: "2:3"',
        '    subjects: [1]',
        '    compose: centred',
        '    note: wide',
        '    final: true',
        '',
        '  # the next',
        '  - photo: b.jpg',
        '',
      ].join(lineBreak);
      const made = madeSession(text, PEOPLE);
      const frame = made.manifest.frames[0]!;
      const half = lengthSteps(made, frame).others.find(({ length }) => length === 'half-length')!;
      const after = applyEdits(text, addLength(made, frame, half));
      const { x, y, w, h } = half.crop;
      const added = [
        '  - photo: a.jpg',
        `    crop: { x: ${x}, y: ${y}, w: ${w}, h: ${h} }`,
        '    straighten: -1.5',
        '    aspect: "2:3"',
        '    length: half-length',
        '    subjects: [1]',
        '    compose: centred',
      ];
      const lines = text.split(lineBreak);
      expect(after.split(lineBreak)).toEqual([...lines.slice(0, 10), ...added, ...lines.slice(10)]);
      const names = parseManifest(after, RULE_CATALOGUE).frames.map(({ name }) => name);
      expect(names).toEqual(['a.jpg', 'a.jpg#2', 'b.jpg']);
    },
  );
});
