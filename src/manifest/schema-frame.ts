import { LENGTHS } from './manifest.ts';
import { ASPECT, COMPOSE, CROP, EXAMPLE_CROP, IDENTIFIER, keys } from './schema-crop.ts';
import { matches } from './scalars.ts';
import type { MapSchema } from './schema-kinds.ts';

/** Relative, with `/` between folders, and no way out of the folder. */
const PHOTO_NAME = '^(?!/)(?![A-Za-z]:)(?!(.*/)?\\.\\.(/|$))[^\\\\\\u0000-\\u001f\\u007f]{1,1024}$';
const RULE_OR_JOINT = '^[a-z][a-z0-9-]*(/[a-z][a-z0-9_]*)?$';

/** One entry of `frames`. */
export const FRAME: MapSchema = {
  kind: 'map',
  meaning: 'a frame is a map that begins with photo',
  keys: keys({
    photo: {
      value: {
        kind: 'text',
        pattern: PHOTO_NAME,
        patternMeaning:
          'a photo is named relative to the photos folder, with / between folders, no .. and no control characters, in at most 1024 letters',
      },
      help: 'The photo’s file, relative to the photos folder.',
      example: '0142.jpg',
      required: true,
    },
    crop: {
      value: CROP,
      help: 'What is kept, in fractions of the photo, in the turned picture.',
      example: EXAMPLE_CROP,
      nullable: true,
    },
    straighten: {
      value: {
        kind: 'number',
        minimum: -45,
        maximum: 45,
        meaning: 'a picture is turned by −45 to 45 degrees, positive clockwise',
      },
      help: 'Turns the picture about its centre, in degrees, positive clockwise.',
      example: '-1.4',
      nullable: true,
    },
    aspect: {
      value: ASPECT,
      help: 'The shape of this frame only, upright or lying as its crop is.',
      example: '"2:3"',
      nullable: true,
    },
    length: {
      value: { kind: 'choice', options: LENGTHS },
      help: 'How much of the person is meant to be in the picture.',
      example: 'three-quarter',
      nullable: true,
    },
    subjects: {
      value: {
        kind: 'list',
        itemName: 'subject',
        minimumItems: 1,
        meaning: 'subjects are a list of people’s numbers, such as [1, 2]',
        item: { kind: 'number', integer: true, minimum: 1, meaning: 'a subject is a person’s number, from 1' },
      },
      help: 'The people that count, by their number in the people file.',
      example: '[1, 2]',
      nullable: true,
    },
    compose: {
      value: COMPOSE,
      help: 'Where the people should stand, in this frame only.',
      example: 'centred',
      nullable: true,
    },
    allow: {
      value: {
        kind: 'map',
        meaning: 'allow is a map from rule, or rule/joint, to a reason',
        keys: new Map(),
        dynamic: {
          name: 'allowance',
          pattern: RULE_OR_JOINT,
          patternMeaning: 'rule or rule/joint, such as joint-cut/left_wrist',
          value: { kind: 'text', emptyMessage: 'needs a reason: say in a few words why this is meant' },
          help: 'A finding that is meant, and why.',
          example: 'joint-cut/left_wrist: "hand tucked in the pocket"',
        },
      },
      help: 'Findings that are meant, each with its reason.',
      example: '{ joint-cut/left_wrist: "hand tucked in the pocket" }',
      nullable: true,
    },
    note: {
      value: { kind: 'text' },
      help: 'Anything worth remembering.',
      example: '"client likes the wider one"',
      nullable: true,
    },
    final: {
      value: { kind: 'boolean' },
      help: 'Approved: no fix touches the frame, what is found about its crop becomes a hint.',
      example: 'true',
      nullable: true,
    },
    deliver: {
      value: {
        kind: 'map',
        meaning: 'a frame’s deliver is a map from an output to its own crop',
        keys: new Map(),
        dynamic: {
          name: 'output',
          pattern: IDENTIFIER,
          patternMeaning: 'the name of an output',
          value: CROP,
          help: 'This output’s own crop of this frame.',
          example: `square: ${EXAMPLE_CROP}`,
        },
      },
      help: 'Own crops of this frame, by output.',
      example: `{ square: ${EXAMPLE_CROP} }`,
      nullable: true,
    },
  }),
};

/** Whether a manifest can name a photo so. */
export function isPhotoName(name: string): boolean {
  return matches(name, PHOTO_NAME);
}

/** The keys of one entry of `frames`, in the order in which they are written. */
export const FRAME_KEYS: readonly string[] = [...FRAME.keys.keys()];
