import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { folderWith } from '../../cli/workspace.ts';
import { GOOD, manifest, PEOPLE, TOP, type Row } from './row.ts';

function hopeless(
  name: string,
  prepare: (folder: string) => void,
  argv: readonly string[] | undefined,
  ...says: string[]
): Row {
  return { name, files: {}, prepare, ...(argv && { argv }), exit: 2, says, others: 'unreadable' };
}

/** Manifests, people files and folders that are something else than they should be. */
export const FILES: readonly Row[] = [
  hopeless('no manifest', () => undefined, undefined, 'crops.yaml cannot be read: it is not there.'),
  hopeless(
    'no folder',
    () => undefined,
    ['check', 'nowhere/crops.yaml'],
    'nowhere/crops.yaml cannot be read: it is not there.',
  ),
  hopeless(
    'a folder named crops.yaml',
    (home) => {
      mkdirSync(join(home, 'crops.yaml'));
    },
    undefined,
    'crops.yaml has no crops.yaml. Write one with: selvedge init ',
  ),
  hopeless(
    'a pipe named crops.yaml',
    (home) => {
      execFileSync('mkfifo', [join(home, 'crops.yaml')]);
    },
    undefined,
    'crops.yaml cannot be read: it is no plain file.',
  ),
  hopeless(
    'a link to a device',
    (home) => {
      symlinkSync('/dev/zero', join(home, 'crops.yaml'));
    },
    undefined,
    'crops.yaml cannot be read: it is no plain file.',
  ),
  hopeless(
    'a link to nowhere',
    (home) => {
      symlinkSync('nowhere.yaml', join(home, 'crops.yaml'));
    },
    undefined,
    'crops.yaml cannot be read: it is not there.',
  ),
  hopeless(
    'links in a circle',
    (home) => {
      symlinkSync('crops.yaml', join(home, 'crops.yaml'));
    },
    undefined,
    'crops.yaml cannot be read: its links lead in a circle.',
  ),
  hopeless(
    'a file for a folder',
    (home) => {
      writeFileSync(join(home, 'shoot.d'), '');
    },
    ['check', 'shoot.d/crops.yaml'],
    'shoot.d/crops.yaml cannot be read: it is not a folder, or a part of its path is none.',
  ),
  hopeless(
    'a name longer than names are',
    () => undefined,
    ['check', `${'a'.repeat(300)}.yaml`],
    'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa',
  ),
  hopeless(
    'fix of a folder',
    (home) => {
      mkdirSync(join(home, 'crops.yaml'));
    },
    ['fix', 'crops.yaml'],
    'crops.yaml has no crops.yaml. Write one with: selvedge init ',
  ),
  hopeless(
    'measure of a folder',
    (home) => {
      mkdirSync(join(home, 'crops.yaml'));
    },
    ['measure', 'crops.yaml'],
    'crops.yaml has no crops.yaml. Write one with: selvedge init ',
  ),
  hopeless(
    'init over a folder named crops.yaml',
    (home) => {
      mkdirSync(join(home, 'shoot.d/crops.yaml'), { recursive: true });
    },
    ['init', 'shoot.d'],
    'shoot.d/crops.yaml is there already and stays as it is. Move it away to begin anew.',
  ),
  hopeless(
    'init of a file',
    (home) => {
      writeFileSync(join(home, 'shoot.d'), '');
    },
    ['init', 'shoot.d'],
    'shoot.d cannot be read: it is not a folder, or a part of its path is none.',
  ),
  hopeless('init of nothing', () => undefined, ['init', 'shoot.d'], 'shoot.d cannot be read: it is not there.'),
  hopeless(
    'init of a folder without pictures',
    (home) => {
      mkdirSync(join(home, 'shoot.d'));
    },
    ['init', 'shoot.d'],
    'shoot.d has no photos (JPEG, PNG, TIFF, WebP, AVIF, HEIF or camera raw files).',
  ),
  {
    name: 'a frame that nobody has',
    files: { 'crops.yaml': manifest('') },
    argv: ['fix', 'crops.yaml', '--frame', '\u001b[31mgod'],
    exit: 2,
    says: [
      'crops.yaml has no frame "\\u001b[31mgod". Frames are named by their photo; NAME#2 is the second of a photo.',
    ],
    others: 'unreadable',
  },
  ...(
    [
      [
        'people: a file that is a folder',
        (home) => {
          mkdirSync(join(home, 'crops.people.jsonl'));
        },
        'crops.people.jsonl cannot be read: it is a folder, not a file.',
      ],
      [
        'people: a file that is a pipe',
        (home) => {
          execFileSync('mkfifo', [join(home, 'crops.people.jsonl')]);
        },
        'crops.people.jsonl cannot be read: it is no plain file.',
      ],
      [
        'a people file of three hundred megabytes',
        (home) => {
          writeFileSync(join(home, 'crops.people.jsonl'), '');
          truncateSync(join(home, 'crops.people.jsonl'), 300_000_000);
        },
        'crops.people.jsonl has 300 MB, and a people file has at most 256 MB; it is not read. Split the session.',
      ],
      [
        'people: a file that is a link out',
        (home) => {
          symlinkSync(join(folderWith({ 'p.jsonl': PEOPLE }), 'p.jsonl'), join(home, 'crops.people.jsonl'));
        },
        "crops.people.jsonl is a link that leads out of the session's folder. Put the file itself there.",
      ],
      [
        'people: a file that is not UTF-8',
        (home) => {
          writeFileSync(join(home, 'crops.people.jsonl'), Buffer.from('ff00fe', 'hex'));
        },
        'crops.people.jsonl is not UTF-8 text. Save it as UTF-8.',
      ],
    ] satisfies [string, (home: string) => void, string][]
  ).map(([name, prepare, says]): Row => ({
    name,
    files: { 'crops.yaml': `${TOP}${GOOD}` },
    prepare: (home) => {
      rmSync(join(home, 'crops.people.jsonl'));
      prepare(home);
    },
    exit: 2,
    says: [says],
    others: 'unreadable',
  })),
];
