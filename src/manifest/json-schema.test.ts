import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { jsonSchema } from './json-schema.ts';
import { parseManifest } from './parse.ts';

const RULES = [
  { id: 'joint-cut' },
  { id: 'headroom', settings: { least: { default: 4, minimum: 0, maximum: 20, unit: '% of the height', help: '…' } } },
];

/** A general validator, so that our schema's data is held against something that is not ours. */
const validate = new Ajv({ strict: true, strictTypes: false, strictRequired: false, allErrors: true }).compile(
  jsonSchema(RULES),
);

const frame = (entry: string): string => `selvedge: 1\nframes:\n  - photo: a.jpg\n    ${entry}\n`;
const output = (entries: string): string => `selvedge: 1\nframes: []\ndeliver: { album: { ${entries} } }\n`;
const rule = (entry: string): string => `selvedge: 1\nframes: []\nrules: { ${entry} }\n`;

const VALID = [
  'selvedge: 1\nframes: []',
  'selvedge: 1\nsession: 2024\nphotos: ../proofs\naspect: free\ncompose: centred\nframes: []',
  frame('crop: { x: -0.1, y: 0, w: 1.2, h: 0.5 }'),
  frame('crop: null'),
  frame('straighten: 45'),
  frame('aspect: 1.91:1'),
  frame('length: close-up'),
  frame('subjects: [1, 3]'),
  frame('allow: { joint-cut/left_wrist: why, headroom: why }'),
  frame('note: 12'),
  frame('final: false'),
  frame('x-mine: [1, { a: b }]'),
  frame('crpo: 1'),
  output('aspect: "2:3", long: 300mm, ppi: 300, bleed: 3mm, safe: 0mm, name: "{session}/{stem}-{output}"'),
  output('paper: A3'),
  output('aspect: free, short: 20.5 cm, format: png, quality: 100'),
  rule('headroom: off'),
  rule('headroom: { severity: info, least: 20 }'),
  rule('no-such-rule: off'),
];

const INVALID = [
  'frames: []',
  'selvedge: 1',
  'selvedge: 2\nframes: []',
  'selvedge: "1"\nframes: []',
  'selvedge: 1\nframes: {}',
  'selvedge: 1\nframes: [a.jpg]',
  'selvedge: 1\nframes: [{ crop: { x: 0, y: 0, w: 1, h: 1 } }]',
  'selvedge: 1\nframes: [{ photo: ../a.jpg }]',
  'selvedge: 1\nframes: [{ photo: "c:/a.jpg" }]',
  'selvedge: 1\nframes: [{ photo: }]',
  'selvedge: 1\nframes: []\naspect: 2x3',
  'selvedge: 1\nframes: []\ncompose: fifths',
  'selvedge: 1\nframes: []\nphotos: ""',
  frame('crop: { x: 0, y: 0, w: 1 }'),
  frame('crop: { x: 0, y: 0, w: 0, h: 1 }'),
  frame('crop: { x: 0, y: 0, w: 2.1, h: 1 }'),
  frame('crop: { x: 11, y: 0, w: 1, h: 1 }'),
  frame('crop: { x: "0", y: 0, w: 1, h: 1 }'),
  frame('crop: [0, 0, 1, 1]'),
  frame('straighten: -45.1'),
  frame('straighten: left'),
  frame('aspect: 2'),
  frame('length: whole'),
  frame('subjects: []'),
  frame('subjects: [0]'),
  frame('subjects: [1.5]'),
  frame('subjects: 1'),
  frame('allow: { joint-cut: " " }'),
  frame('allow: { joint-cut: }'),
  frame('allow: [joint-cut]'),
  frame('final: yes'),
  frame('deliver: { album: { x: 0 } }'),
  output('long: 300mm'),
  output('aspect: free, paper: A3'),
  output('aspect: free, long: 1cm, short: 1cm'),
  output('aspect: free, long: 300'),
  output('aspect: free, long: 300pt'),
  output('aspect: free, quality: 0'),
  output('aspect: free, ppi: 0'),
  output('aspect: free, format: bmp'),
  output('aspect: free, name: "{date}"'),
  rule('headroom: loud'),
  rule('headroom: { least: 21 }'),
  rule('headroom: [off]'),
];

describe('the JSON Schema and our own validation agree', () => {
  it.each(VALID)('valid: %s', (text) => {
    expect(parseManifest(text, RULES).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(validate(parse(text)), JSON.stringify(validate.errors)).toBe(true);
  });

  it.each(INVALID)('invalid: %s', (text) => {
    expect(parseManifest(text, RULES).problems.some(({ severity }) => severity === 'error')).toBe(true);
    expect(validate(parse(text))).toBe(false);
  });
});
