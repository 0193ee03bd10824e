import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatNumber } from './new-value.ts';
import { parseManifest } from './parse.ts';
import { writeManifest } from './write.ts';

describe('writeManifest', () => {
  it('writes a manifest that reads well', () => {
    const text = writeManifest({
      session: 'Boardwalk, late light',
      photos: 'proofs',
      aspect: '2:3',
      frames: [
        { photo: '0142.jpg' },
        {
          photo: 'first look/no 7.jpg',
          crop: { x: 0.1, y: 0.0625, w: 0.8, h: 1 / 3 },
          straighten: -1.404,
          final: true,
        },
      ],
    });
    expect(text.split('\n').filter((line) => !line.startsWith('#'))).toEqual([
      'selvedge: 1',
      'session: "Boardwalk, late light"',
      'photos: proofs',
      'aspect: "2:3"',
      'frames:',
      '  - photo: 0142.jpg',
      '  - photo: "first look/no 7.jpg"',
      '    crop: { x: 0.1, y: 0.0625, w: 0.8, h: 0.3333 }',
      '    straighten: -1.4',
      '    final: true',
      '',
    ]);
    expect(text.startsWith('# ')).toBe(true);
  });

  it('gives back any name', () => {
    const segment = fc.oneof(
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }),
      fc.constantFrom(
        'on',
        'null',
        '1e5',
        '0x10.jpg',
        '-',
        '- a',
        '? b',
        '#c.jpg',
        "it's",
        '"q"',
        '{x}',
        '12:30',
        '~',
        ' a ',
        '2024',
        '1_0',
        '.5',
        '=',
        '<<',
        '&a',
        '*b',
        '!c',
        '%d',
        '@e',
        '`f',
        'a: b',
        'a #b',
        '\u2028',
        'a,b',
      ),
    );
    const photo = segment.filter((name) => !/[\\\u0000-\u001f\u007f]|^[A-Za-z]:|^\/|(^|\/)\.\.(\/|$)/.test(name));
    fc.assert(
      fc.property(fc.array(photo, { maxLength: 4 }), segment, (photos, session) => {
        fc.pre(!session.includes('\u0000'));
        const manifest = parseManifest(writeManifest({ session, frames: photos.map((name) => ({ photo: name })) }), []);
        expect(manifest.problems).toEqual([]);
        expect(manifest.frames.map((frame) => frame.photo.value)).toEqual(photos);
        expect(manifest.session?.value).toBe(session);
      }),
      { numRuns: 300 },
    );
  });
});

describe('formatNumber', () => {
  it.each([
    [0.1, '0.1'],
    [0.0625, '0.0625'],
    [1 / 3, '0.3333'],
    [-0.00001, '0'],
    [100, '100'],
    [1e-7, '0'],
    [-0.5, '-0.5'],
  ])('%d', (value, text) => {
    expect(formatNumber(value, 4)).toBe(text);
  });
});
