import { expect, it } from 'vitest';
import { placeAt, type TextPlace } from './text-place.ts';

/** The cursor stands at `|`. */
function at(text: string): TextPlace {
  return placeAt(text.replace('|', ''), text.indexOf('|'));
}

const FRAMES = 'selvedge: 1\nframes:\n  - photo: a.jpg\n    crop: { x: 0.1, y: 0, w: 1, h: 1 }\n';

it('tells keys at the top from keys of a frame', () => {
  expect(at('selvedge: 1\nse|')).toEqual({ path: [], writes: 'key', typed: 'se' });
  expect(at(`${FRAMES}    |`)).toEqual({ path: ['frames', '-'], writes: 'key', typed: '' });
  expect(at(`${FRAMES}    len|`)).toEqual({ path: ['frames', '-'], writes: 'key', typed: 'len' });
  expect(at(`${FRAMES}  - ph|`)).toEqual({ path: ['frames', '-'], writes: 'key', typed: 'ph' });
});

it('knows the value that is being written', () => {
  expect(at(`${FRAMES}    length: three|`)).toEqual({
    path: ['frames', '-', 'length'],
    writes: 'value',
    typed: 'three',
  });
  expect(at(`${FRAMES}  - photo: |`)).toEqual({ path: ['frames', '-', 'photo'], writes: 'value', typed: '' });
  expect(at('compose: |')).toEqual({ path: ['compose'], writes: 'value', typed: '' });
});

it('follows braces and brackets on the line', () => {
  expect(at('deliver:\n  album: { aspect: "2:3", pp|')).toEqual({
    path: ['deliver', 'album'],
    writes: 'key',
    typed: 'pp',
  });
  expect(at('deliver:\n  album: { long: 300mm, aspect: |')).toEqual({
    path: ['deliver', 'album', 'aspect'],
    writes: 'value',
    typed: '',
  });
  expect(at(`${FRAMES}    subjects: [1, |`)).toEqual({
    path: ['frames', '-', 'subjects', '-'],
    writes: 'value',
    typed: '',
  });
  expect(at('rules: { headroom: { severity: |').path).toEqual(['rules', 'headroom', 'severity']);
  expect(at('rules: { headroom: { severity: off }, |')).toEqual({ path: ['rules'], writes: 'key', typed: '' });
});

it('follows maps by their indentation, past comments and empty lines', () => {
  expect(at(`${FRAMES}    allow:\n\n      # why\n      joint|`)).toEqual({
    path: ['frames', '-', 'allow'],
    writes: 'key',
    typed: 'joint',
  });
  expect(at('rules:\n  headroom:\n    |')).toEqual({ path: ['rules', 'headroom'], writes: 'key', typed: '' });
});

it('knows a list at the column of its own key', () => {
  expect(at('frames:\n- photo: a.jpg\n  |')).toEqual({ path: ['frames', '-'], writes: 'key', typed: '' });
  expect(at('frames:\n- photo: a.jpg\n- |')).toEqual({ path: ['frames', '-'], writes: 'key', typed: '' });
});
