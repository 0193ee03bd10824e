import { GOOD, manifest, text, TOP, type Row } from './row.ts';

const deep = (opening: string, closing: string): string => opening.repeat(20_000) + closing.repeat(20_000);

/** Each anchor stands for ten of the one before: the last for ten thousand million values. */
const BOMB = Array.from({ length: 10 }, (_, level) => {
  const items = level === 0 ? Array(10).fill('0') : Array(10).fill(`*b${level - 1}`);
  return `x-${level}: &b${level} [${items.join(', ')}]\n`;
}).join('');

/** Manifests whose text is broken, hostile or only odd. */
export const TEXTS: readonly Row[] = [
  text(
    'a tab for indentation',
    manifest('  - photo: a.jpg\n\tcrop: { x: 0, y: 0, w: 1, h: 1 }\n'),
    'crops.yaml:7:1  error  Broken YAML: a tab stands where YAML wants spaces: indent with spaces.  [manifest]',
  ),
  text(
    'an unclosed quote',
    manifest('  - photo: a.jpg\n    note: "never closed\n'),
    'crops.yaml:7:5  error  Broken YAML: the closing quote is missing. "note" of this frame cannot be read.  [manifest]',
  ),
  text(
    'an unclosed brace',
    manifest('  - photo: a.jpg\n    crop: { x: 0, y: 0, w: 1\n'),
    'crops.yaml:7:5  error  Broken YAML: the closing brace } is missing. "crop" of this frame cannot be read.  [manifest]',
  ),
  text(
    'a bracket too many',
    manifest('  - photo: a.jpg\n    subjects: [1]]\n'),
    'crops.yaml:7:18  error  Broken YAML: there is a closing bracket ] too many. "subjects" of this frame cannot be read.  [manifest]',
  ),
  text(
    'indentation that does not fit',
    manifest('  - photo: a.jpg\n      crop: 1\n   note: 2\n'),
    'crops.yaml:6:12  error  Broken YAML: the next line does not stand under the key above it: begin it with 4 spaces, as the other keys of its frame.  [manifest]',
    'crops.yaml:7:13  error  crop is 1: a crop is { x: …, y: …, w: …, h: … } in fractions of the photo.  [manifest]',
  ),
  text(
    'two keys on a line',
    manifest('  - photo: a.jpg\n    note: one: two\n'),
    'crops.yaml:7:11  error  Broken YAML: text with a colon and a space in it needs quotes: write note: "one: two". "note" of this frame cannot be read.  [manifest]',
  ),
  text(
    'a backslash in double quotes',
    manifest('  - photo: a.jpg\n    note: "C:\\photos"\n'),
    'crops.yaml:7:14  error  Broken YAML: a backslash in double quotes begins an escape: write \\\\ for a backslash, or use single quotes. "note" of this frame cannot be read.  [manifest]',
  ),
  {
    ...text(
      'a merge that nobody finished',
      `${TOP}<<<<<<< ours\n  - photo: a.jpg\n=======\n  - photo: b.jpg\n>>>>>>> theirs\n${GOOD}`,
      'crops.yaml:6:1  error  Broken YAML: a merge was not finished here: keep one version, and delete the lines with <<<<<<<, ======= and >>>>>>>.  [manifest]',
      'crops.yaml:8:1  error  Broken YAML: a merge was not finished here: keep one version, and delete the lines with <<<<<<<, ======= and >>>>>>>.  [manifest]',
    ),
    // Nobody has chosen between the two crops yet.
    fix: 'leaves',
  },
  text(
    'a second document',
    `${manifest('')}---\nframes: []\n`,
    'crops.yaml:8:1  error  A second document begins here, after "---": a manifest is one document. What follows is not read.  [manifest]',
  ),
  text(
    'a directive of a later YAML',
    `%YAML 9.9\n---\n${manifest('')}`,
    'crops.yaml:1:7  warning  Broken YAML: this line speaks of a version of YAML that is not known here: take it out.  [manifest]',
  ),
  text(
    'a NUL byte',
    manifest('  - photo: a.jpg\n    note: "a\u0000b"\n    crop: 5\n'),
    'crops.yaml:7:13  error  A NUL byte stands here, which belongs in no text: delete it, or save the file anew as UTF-8.  [manifest]',
    'crops.yaml:8:11  error  crop is 5: a crop is { x: …',
  ),
  text(
    'control characters',
    manifest('  - photo: a.jpg\n    \u001b[2J: \u0007\u009b31m\n'),
    'crops.yaml:7:5  warning  "\\u001b[2J" is not a key that I know. (Keys of your own begin with x-.)  [manifest]',
  ),
  text(
    'text that reads backwards',
    manifest('  - photo: a.jpg\n    \u202elanif: true\n'),
    'crops.yaml:7:5  warning  "\\u202elanif" is not a key that I know. (Keys of your own begin with x-.)  [manifest]',
  ),
  text(
    'a byte order mark and other line ends',
    `\ufeff${manifest('  - photo: a.jpg\n    crop: 5\n').replaceAll('\n', '\r\n')}`,
    'crops.yaml:7:11  error  crop is 5: a crop is { x: …, y: …, w: …, h: … } in fractions of the photo.  [manifest]',
  ),
  {
    ...text(
      'old line ends, and one key twice',
      manifest('').replace('compose: free', 'compose: free\ncompose: thirds'),
      'crops.yaml:4:1  error  compose stands here twice: the first one counts. Remove one of them.  [manifest]',
    ),
    fix: 'leaves',
  },
  text(
    'an unknown alias',
    manifest('  - photo: a.jpg\n    crop: *nowhere\n'),
    'crops.yaml:7:11  error  No anchor of this name stands before this alias: write &name at what it should repeat.  [manifest]',
  ),
  text(
    'an alias that holds itself',
    manifest('  - &me\n    photo: a.jpg\n    allow: *me\n'),
    'crops.yaml:8:12  error  allow.allow cannot be a map: it is text.  [manifest]',
    'crops.yaml:8:12  warning  There is no rule "photo". Remove it, or name a rule that there is.  [manifest]',
  ),
  text(
    'a merge that holds itself',
    manifest('  - &me\n    <<: *me\n    photo: a.jpg\n'),
    'crops.yaml:7:9  error  This leads through more than 100 aliases: write the values out.  [manifest]',
  ),
  text(
    'a merge of a number',
    manifest('  - <<: 5\n    photo: a.jpg\n'),
    'crops.yaml:6:9  error  A merge key (<<) brings in a map, or a list of maps, by their aliases.  [manifest]',
  ),
  text(
    'an alias bomb',
    `${BOMB}${manifest('  - photo: a.jpg\n    subjects: *b9\n')}`,
    'crops.yaml:17:15  error  The first entry of subjects cannot be a list: a subject is a person’s number, from 1.  [manifest]',
    'crops.yaml:17:15  error  The second entry of subjects cannot be a list: a subject is a person’s number, from 1.  [manifest]',
  ),
  text(
    'more aliases than a frame may have',
    `x-n: &n 1\n${manifest(`  - photo: a.jpg\n    subjects: [${Array(101).fill('*n').join(', ')}]\n`)}`,
    'crops.yaml:8:416  error  This leads through more than 100 aliases: write the values out.  [manifest]',
  ),
  text(
    'brackets twenty thousand deep',
    manifest(`  - photo: a.jpg\n    note: ${deep('[', ']')}\n`),
    '  error  Broken YAML: brackets, braces or lists stand too deep in each other: write it flatter. "note" of this frame cannot be read.  [manifest]',
  ),
  text(
    'braces twenty thousand deep',
    manifest(`  - photo: a.jpg\n    crop: ${deep('{a: ', '}')}\n`),
    '  error  Broken YAML: brackets, braces or lists stand too deep in each other: write it flatter. "crop" of this frame cannot be read.  [manifest]',
  ),
  text(
    'block lists five thousand deep',
    manifest(`  - photo: a.jpg\n    note:\n      ${'- '.repeat(5000)}1\n`),
    '  error  Broken YAML: brackets, braces or lists stand too deep in each other: write it flatter. "note" of this frame cannot be read.  [manifest]',
  ),
  text(
    'a megabyte of spaces in a broken line',
    manifest(`  - photo: a.jpg\n    note${' '.repeat(1_000_000)}x\n    crop: [\n`),
    'crops.yaml:7:5  error  Broken YAML: expected "key: value" here. The line is left out.  [manifest]',
    'crops.yaml:8:5  error  Broken YAML: the closing bracket ] is missing. "crop" of this frame cannot be read.  [manifest]',
  ),
  text(
    'three hundred thousand line breaks in a text',
    manifest(`  - photo: a.jpg\n    length: |\n${'\n'.repeat(300_000)}      x\n`),
    '  error  length is "',
  ),
  text(
    'a key of a megabyte',
    manifest(`  - photo: a.jpg\n    ${'k'.repeat(1_000_000)}: 1\n`),
    'crops.yaml:7:5  error  Broken YAML: the : indicator must be at most 1024 chars after the start of an implicit block mapping key. "kkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk" of this frame cannot be read.  [manife',
  ),
  text(
    'a value of a megabyte',
    manifest(`  - photo: a.jpg\n    length: ${'v'.repeat(1_000_000)}\n`),
    'crops.yaml:7:13  error  length is "vvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvv…: it is one of full-length, three-quarter, half-length, head-and-shoulders, close-up.  [manifest]',
  ),
  text(
    'ten thousand unknown keys in one frame',
    manifest(`  - photo: a.jpg\n${Array.from({ length: 10_000 }, (_, at) => `    k${at}: 1\n`).join('')}`),
    'crops.yaml:7:5  warning  "k0" is not a key that I know. (Keys of your own begin with x-.)  [manifest]',
    'crops.yaml:8:5  warning  "k1" is not a key that I know. (Keys of your own begin with x-.)  [manifest]',
  ),
  {
    ...text(
      'a manifest of another version',
      manifest('').replace('selvedge: 1', 'selvedge: 2'),
      'crops.yaml:1:11  error  selvedge is 2: this program reads version 1 of the format.  [manifest]',
    ),
    fix: 'leaves',
  },
  {
    ...text(
      'a version of text',
      manifest('').replace('selvedge: 1', 'selvedge: "1"'),
      'crops.yaml:1:11  error  selvedge is "1", not a number: this program reads version 1 of the format; take the quotes off.  [manifest]',
    ),
    fix: 'leaves',
  },
  {
    ...text(
      'no version',
      manifest('').replace('selvedge: 1', 'session: x'),
      'crops.yaml:1:1  error  selvedge is missing: add selvedge: 1.  [manifest]',
    ),
    fix: 'leaves',
  },
  {
    ...text(
      'an unknown key at the top',
      manifest('').replace('compose: free', 'compsoe: free'),
      'crops.yaml:3:1  warning  "compsoe" is not a key that I know. Did you mean compose? (Keys of your own begin with x-.)  [manifest]',
    ),
    fix: 'leaves',
  },
  text(
    'a rule that nobody knows',
    manifest('').replace('compose: free', 'rules: { knee-cut: off }'),
    'crops.yaml:3:10  warning  "knee-cut" is not a key that I know in rules. Did you mean face-cut? (Keys of your own begin with x-.)  [manifest]',
  ),
  text(
    'a severity that nobody knows',
    manifest('').replace('compose: free', 'rules: { foot-cut: fatal }'),
    'crops.yaml:3:20  error  rules.foot-cut is "fatal": it is one of error, warning, info, off.  [manifest]',
  ),
  text(
    'a setting beyond its bounds',
    manifest('').replace('compose: free', 'rules: { headroom: { threeQuarterLeast: .nan } }'),
    'crops.yaml:3:41  error  rules.headroom.threeQuarterLeast is .nan: ',
  ),
  text(
    'rules as a list',
    manifest('').replace('compose: free', 'rules: [foot-cut]'),
    'crops.yaml:3:8  error  rules cannot be a list: rules is a map from a rule to its severity or settings.  [manifest]',
  ),
  text(
    'an output without a size',
    manifest('').replace('compose: free', 'deliver: { album: { aspect: "2:3", long: 1e99mm } }'),
    'crops.yaml:3:42  error  deliver.album.long is "1e99mm": a size is a number and px, mm, cm or in, such as 300mm or 2048px.  [manifest]',
  ),
  text(
    'a frame that is a word',
    manifest('  - a.jpg\n'),
    'crops.yaml:6:5  error  This entry is "a.jpg": a frame is a map that begins with photo.  [manifest]',
  ),
  text(
    'a frame that is a list',
    manifest('  - [a.jpg]\n'),
    'crops.yaml:6:5  error  This entry cannot be a list: a frame is a map that begins with photo.  [manifest]',
  ),
  text(
    'a frame that is nothing',
    manifest('  -\n'),
    'crops.yaml:6:4  error  This entry is : a frame is a map that begins with photo.  [manifest]',
  ),
  text(
    'a frame without a photo',
    manifest('  - crop: { x: 0, y: 0, w: 1, h: 1 }\n'),
    'crops.yaml:6:5  error  photo is missing: add photo: 0142.jpg.  [manifest]',
  ),
  text(
    'cut off in the middle',
    `${TOP}${GOOD}  - photo: a.jpg\n    crop: { x: 0.1, y`,
    'crops.yaml:9:5  error  Broken YAML: the closing brace } is missing. "crop" of this frame cannot be read.  [manifest]',
  ),
];
