import { describe, expect, it } from 'vitest';
import { insertFrameAfter, removeFrame } from './edit-list.ts';
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

describe('adding and removing frames', () => {
  const text = framed('  - photo: a.jpg', '    note: |', '      x', '', '  # about b', '  - photo: b.jpg # b');

  it('adds after a frame, in the style of the list', () => {
    expect(applyEdits(text, insertFrameAfter(read(text), 1, { photo: 'c d.jpg', crop: CROP }))).toBe(
      `${text}  - photo: "c d.jpg"\n    crop: ${NEW}\n`,
    );
    const flow = 'selvedge: 1\nframes: [{ photo: a.jpg }, { photo: b.jpg }]';
    expect(applyEdits(flow, insertFrameAfter(read(flow), 0, { photo: 'c.jpg' }))).toContain(
      'a.jpg }, { photo: c.jpg }, {',
    );
  });

  it.each([
    [
      'braces',
      ['- { photo: a.jpg } # a', '', '# b', '- photo: b.jpg'],
      ['- { photo: a.jpg } # a', `- { photo: c.jpg, crop: ${NEW} }`, '', '# b', '- photo: b.jpg'],
    ],
    [
      'far in',
      ['-   photo: a.jpg', '    final: true'],
      ['-   photo: a.jpg', '    final: true', '-   photo: c.jpg', `    crop: ${NEW}`],
    ],
    [
      'the crop on lines',
      ['- photo: a.jpg', '  crop:', '    x: 0', '    y: 0', '    w: 1', '    h: 1 # all'],
      [
        '- photo: a.jpg',
        '  crop:',
        '    x: 0',
        '    y: 0',
        '    w: 1',
        '    h: 1 # all',
        '- photo: c.jpg',
        '  crop:',
        '    x: 0.1',
        '    y: 0.0625',
        '    w: 0.8',
        '    h: 0.6667',
      ],
    ],
    ['below its dash', ['-', '    photo: a.jpg'], ['-', '    photo: a.jpg', '- photo: c.jpg', `  crop: ${NEW}`]],
  ])('adds as the frame before is written: %s', (_, before, after) => {
    const text = framed(...before);
    expect(applyEdits(text, insertFrameAfter(read(text), 0, { photo: 'c.jpg', crop: CROP }))).toBe(framed(...after));
  });

  it.each([
    [
      '[\n  { photo: a.jpg }, # a\n  { photo: b.jpg } # b\n]',
      0,
      '[\n  { photo: a.jpg }, # a\n  { photo: c.jpg },\n  { photo: b.jpg } # b\n]',
    ],
    [
      '[\n  { photo: a.jpg }, # a\n  { photo: b.jpg } # b\n]',
      1,
      '[\n  { photo: a.jpg }, # a\n  { photo: b.jpg }, # b\n  { photo: c.jpg }\n]',
    ],
    [
      '[\n  { photo: a.jpg },\n  { photo: b.jpg } ]',
      1,
      '[\n  { photo: a.jpg },\n  { photo: b.jpg }, { photo: c.jpg } ]',
    ],
  ])('adds in brackets over lines: %j after %i', (list, index, after) => {
    const text = `selvedge: 1\nframes: ${list}\n`;
    expect(applyEdits(text, insertFrameAfter(read(text), index, { photo: 'c.jpg' }))).toBe(
      `selvedge: 1\nframes: ${after}\n`,
    );
  });

  it.each([
    ['selvedge: 1\n', 'selvedge: 1\nframes:\n  - photo: a.jpg\n'],
    ['selvedge: 1\nframes: # none\n', 'selvedge: 1\nframes: # none\n  - photo: a.jpg\n'],
    ['selvedge: 1\r\nframes: []\r\n', 'selvedge: 1\r\nframes:\r\n  - photo: a.jpg\r\n'],
  ])('adds the first to %j', (before, after) => {
    expect(applyEdits(before, insertFrameAfter(read(before), undefined, { photo: 'a.jpg' }))).toBe(after);
  });

  it('removes a frame with its lines', () => {
    expect(applyEdits(text, removeFrame(read(text), 1))).toBe(text.replace('  - photo: b.jpg # b\n', ''));
    const one = framed('  - photo: a.jpg', '    final: true');
    expect(applyEdits(one, removeFrame(read(one), 0))).toBe('selvedge: 1\nframes: []\n');
  });

  it('does not remove what others use', () => {
    const shared = framed('- &f { photo: a.jpg }', '- *f');
    expect(removeFrame(read(shared), 0)).toEqual([]);
    expect(applyEdits(shared, removeFrame(read(shared), 1))).toBe(framed('- &f { photo: a.jpg }'));
  });
});
