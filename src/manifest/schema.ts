import { SEVERITIES } from './manifest.ts';
import { ASPECT, COMPOSE, IDENTIFIER, keys } from './schema-crop.ts';
import { FRAME } from './schema-frame.ts';
import type { KeySchema, ListSchema, MapSchema, RuleCatalogue, RuleDescription } from './schema-kinds.ts';
import { OUTPUT } from './schema-output.ts';

/** The version of the format that this program reads. */
export const FORMAT_VERSION = 1;

/** Names that are one path or a part of one: no control characters. */
const PLAIN_TEXT = '^[^\\u0000-\\u001f\\u007f]+$';

/** The list of frames. */
export const FRAMES: ListSchema = {
  kind: 'list',
  item: FRAME,
  itemName: 'frame',
  numbered: true,
  meaning: 'frames is a list, each entry beginning with "- photo:"',
};

/** The schema of a whole manifest, with the settings of the given rules. */
export function manifestSchema(rules: RuleCatalogue): MapSchema {
  return {
    kind: 'map',
    meaning: 'a manifest is a map that begins with selvedge: 1',
    keys: keys({
      selvedge: {
        value: {
          kind: 'number',
          integer: true,
          minimum: FORMAT_VERSION,
          maximum: FORMAT_VERSION,
          meaning: `this program reads version ${FORMAT_VERSION} of the format`,
        },
        help: 'Version of the format.',
        example: String(FORMAT_VERSION),
        required: true,
      },
      session: { value: { kind: 'text' }, help: 'What the session is called.', example: 'Boardwalk, late light' },
      photos: {
        value: {
          kind: 'text',
          pattern: PLAIN_TEXT,
          patternMeaning: 'photos names a folder, relative to this file, without control characters',
        },
        help: 'The folder with the photos, relative to this file; "." when absent.',
        example: 'proofs',
      },
      aspect: { value: ASPECT, help: 'The shape of the crops: original, free or A:B.', example: 'original' },
      compose: {
        value: COMPOSE,
        help: 'Where the people should stand: on a third line, in the centre, or anywhere.',
        example: 'thirds',
      },
      rules: {
        value: rulesSchema(rules),
        help: 'How severe a rule is, and its settings.',
        example: '{ eye-line: off }',
      },
      deliver: {
        value: {
          kind: 'map',
          meaning: 'deliver is a map from an output’s name to what it is',
          keys: new Map(),
          dynamic: {
            name: 'output',
            pattern: IDENTIFIER,
            patternMeaning: 'letters, digits, dashes and dots',
            value: OUTPUT,
            help: 'Something that gets delivered.',
            example: 'album: { aspect: "2:3", long: 300mm, ppi: 300 }',
          },
        },
        help: 'What gets delivered.',
        example: '{ album: { aspect: "2:3", long: 300mm, ppi: 300 } }',
      },
      frames: {
        value: FRAMES,
        help: 'One entry per photo.',
        example: '[{ photo: 0142.jpg }]',
        required: true,
      },
    }),
  };
}

function rulesSchema(rules: RuleCatalogue): MapSchema {
  const entries = rules.map((rule): [string, KeySchema] => [
    rule.id,
    {
      value: { kind: 'severity-or-map', map: { kind: 'map', keys: settingsSchema(rule) } },
      help: rule.summary ?? 'How severe this rule is, and its settings.',
      example: 'warning',
    },
  ]);
  return { kind: 'map', meaning: 'rules is a map from a rule to its severity or settings', keys: new Map(entries) };
}

function settingsSchema(rule: RuleDescription): ReadonlyMap<string, KeySchema> {
  const severity: KeySchema = {
    value: { kind: 'choice', options: SEVERITIES },
    help: 'How severe this rule’s findings are.',
    example: 'warning',
  };
  const settings = Object.entries(rule.settings ?? {}).map(([name, setting]): [string, KeySchema] => [
    name,
    {
      value: {
        kind: 'number',
        minimum: setting.minimum,
        maximum: setting.maximum,
        meaning: `it is a number from ${setting.minimum} to ${setting.maximum} (${setting.unit}), ${setting.default} when absent`,
      },
      help: setting.help,
      example: String(setting.default),
    },
  ]);
  return new Map([['severity', severity], ...settings]);
}
