import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { generatedSession } from '../../tests/scenes/session.ts';
import { keysBeside } from './keys-beside.ts';

/** The cursor stands at `|`. */
function at(text: string): string[] {
  return [...keysBeside(text.replace('|', ''), text.indexOf('|'))].sort();
}

// Against the package yaml: what it reads of the whole text while nothing is written on the new line yet.
it('knows the keys of every frame, on a new line behind each of its lines', () => {
  const { manifest } = generatedSession(25);
  const { frames } = parse(manifest) as { frames: object[] };
  const lines = manifest.trimEnd().split('\n');
  let frame = -1;
  let compared = 0;
  lines.forEach((line, index) => {
    if (line.startsWith('  - ')) frame++;
    if (frame === -1) return;
    const text = [...lines.slice(0, index + 1), '    |', ...lines.slice(index + 1)].join('\n');
    expect(at(text)).toEqual(Object.keys(frames[frame]!).sort());
    compared++;
  });
  expect(compared).toBeGreaterThan(50);
});

it('knows the keys of the manifest', () => {
  expect(at('selvedge: 1\n|\nphotos: .\nframes:\n  - photo: a.jpg\n    note: x\n')).toEqual([
    'frames',
    'photos',
    'selvedge',
  ]);
});

it('has no say for the line that is being written, and for what lies deeper', () => {
  const frame = 'frames:\n  - photo: a.jpg\n    subjects:\n      - 1\n    allow:\n      headroom: "x"\n';
  expect(at(`${frame}    len|\n    # a note\n\n    final: true\n  - photo: b.jpg\n    length: close-up`)).toEqual([
    'allow',
    'final',
    'photo',
    'subjects',
  ]);
});

it('begins anew at a dash', () => {
  expect(at('frames:\n  - photo: a.jpg\n    note: x\n  - |\n    final: true\n  - photo: c.jpg\n')).toEqual(['final']);
  expect(at('frames:\n- photo: a.jpg\n  subjects:\n  - 1\n  |\n- photo: b.jpg\n  note: x\n')).toEqual([
    'photo',
    'subjects',
  ]);
});

it('reads the braces around the cursor', () => {
  expect(at('frames:\n  - { photo: a.jpg, crop: { x: 0, y: 0 }, |, note: "x" }')).toEqual(['crop', 'note', 'photo']);
  expect(at('frames:\n  - photo: a.jpg\n    crop: { x: 0, |')).toEqual(['x']);
});
