import { ORIENTATIONS } from '../geometry/ratio.ts';
import { PAPER_NAMES } from '../geometry/paper-sizes.ts';
import { FORMATS, METADATA_KEPT, PROFILES } from './manifest.ts';
import { ASPECT, keys } from './schema-crop.ts';
import type { MapSchema } from './schema-kinds.ts';

/** Placeholders of an output's file name. */
export const NAME_PLACEHOLDERS = ['session', 'stem', 'output'] as const;

const NAME_TEMPLATE = '^(?!/)(?!(.*/)?\\.\\.(/|$))([^{}\\\\\\u0000-\\u001f\\u007f]|\\{(session|stem|output)\\})+$';

/** One entry of `deliver`. */
export const OUTPUT: MapSchema = {
  kind: 'map',
  meaning: 'an output is a map such as { aspect: "2:3", long: 300mm }',
  conflicts: [
    ['aspect', 'paper'],
    ['long', 'short'],
    ['paper', 'long'],
    ['paper', 'short'],
  ],
  anyOf: ['aspect', 'paper'],
  keys: keys({
    aspect: { value: ASPECT, help: 'The shape of the output.', example: '"2:3"' },
    paper: {
      value: { kind: 'choice', options: PAPER_NAMES },
      help: 'A paper size, in place of aspect and long: ISO 216 (A3, B2) or a photographic paper (13x18cm, 8x10in).',
      example: 'A3',
    },
    orientation: {
      value: { kind: 'choice', options: ORIENTATIONS },
      help: 'How the shape or paper is held; when absent, as each frame’s crop is: "4:5" makes 5:4 of a lying one.',
      example: 'upright',
    },
    long: { value: { kind: 'measure' }, help: 'The long side.', example: '300mm' },
    short: { value: { kind: 'measure' }, help: 'The short side.', example: '200mm' },
    ppi: {
      value: { kind: 'number', minimum: 1, maximum: 10000, meaning: 'pixels per inch are a number from 1 to 10000' },
      help: 'Pixels per inch on paper; 300 when absent.',
      example: '300',
    },
    bleed: {
      value: { kind: 'measure', zero: 'allowed' },
      help: 'Picture beyond the trimmed edge, on each side.',
      example: '3mm',
    },
    safe: {
      value: { kind: 'measure', zero: 'allowed' },
      help: 'How far inside the trimmed edge nothing important may be.',
      example: '3mm',
    },
    name: {
      value: {
        kind: 'text',
        pattern: NAME_TEMPLATE,
        patternMeaning: 'a name is a relative path in which {session}, {stem} and {output} are filled in',
      },
      help: 'The file’s name without its ending; {session}, {stem} and {output} are filled in.',
      example: '"{session}-{stem}-{output}"',
    },
    format: { value: { kind: 'choice', options: FORMATS }, help: 'The file’s format.', example: 'jpeg' },
    quality: {
      value: {
        kind: 'number',
        integer: true,
        minimum: 1,
        maximum: 100,
        meaning: 'quality is a whole number from 1 to 100',
      },
      help: 'How good a JPEG, WebP or AVIF is, 1 to 100.',
      example: '90',
    },
    profile: {
      value: { kind: 'choice', options: PROFILES },
      help: 'The colour profile: srgb when absent; original keeps the photo’s own.',
      example: 'srgb',
    },
    metadata: {
      value: { kind: 'choice', options: METADATA_KEPT },
      help: 'What the file tells: all (when absent), only whose picture it is (credit), or none.',
      example: 'credit',
    },
    location: {
      value: { kind: 'boolean' },
      help: 'Whether the file says where the photo was taken; not when absent.',
      example: 'true',
    },
    sharpen: {
      value: { kind: 'boolean' },
      help: 'Whether a picture that is made smaller is sharpened lightly; it is when absent.',
      example: 'false',
    },
  }),
};
