import { hopeless, manifest, TOP, type Row } from './row.ts';

const NO_FRAME = 'No frame of crops.yaml can be read.';
const BEGIN = 'A manifest begins with "selvedge: 1" and lists its photos under "frames:".';
const NOT_UTF8 = 'crops.yaml is not UTF-8 text. Save it as UTF-8.';

/** Manifests of which nothing can be read. */
export const HOPELESS: readonly Row[] = [
  hopeless('nothing at all', '', NO_FRAME, `crops.yaml:1:1  There is nothing here. ${BEGIN}`),
  hopeless('zero bytes', '\u0000'.repeat(4096), NO_FRAME, `crops.yaml:1:1  This is not a manifest. ${BEGIN}`),
  hopeless('only a comment', '# later\n', NO_FRAME, `crops.yaml:1:1  There is nothing here. ${BEGIN}`),
  hopeless('a list for a manifest', '- a.jpg\n', NO_FRAME, `crops.yaml:1:1  This is not a manifest. ${BEGIN}`),
  hopeless('a word', 'crops', NO_FRAME, `crops.yaml:1:1  This is not a manifest. ${BEGIN}`),
  hopeless(
    'no frames',
    'selvedge: 1\nframes: []\n',
    'crops.yaml lists no frames. Add them under "frames:", each beginning with "- photo:", or begin with selvedge init.',
  ),
  hopeless(
    'frames that are a word',
    'selvedge: 1\nframes: all\n',
    NO_FRAME,
    'crops.yaml:2:9  frames is "all": frames is a list, each entry beginning with "- photo:".',
  ),
  hopeless(
    'frames as a map',
    'selvedge: 1\nframes: { photo: a.jpg }\n',
    NO_FRAME,
    'crops.yaml:2:9  frames cannot be a map: frames is a list, each entry beginning with "- photo:".',
  ),
  hopeless(
    'only brackets',
    '['.repeat(100_000),
    NO_FRAME,
    'Broken YAML: brackets, braces or lists stand too deep in each other: write it flatter.',
  ),
  hopeless('sixteen bits a character', Buffer.from(`\ufeff${manifest('')}`, 'utf16le'), NOT_UTF8),
  hopeless('one byte a character', Buffer.from(manifest('  - photo: Straße.jpg\n'), 'latin1'), NOT_UTF8),
  hopeless('a picture', Buffer.from('ffd8ffe000104a46494600010100000100010000ffdb', 'hex'), NOT_UTF8),
  hopeless(
    'fifty megabytes',
    Buffer.alloc(50_000_000, `${manifest('')}#`),
    'crops.yaml has 50 MB, and a manifest has at most 16 MB; it is not read. Split the session.',
  ),
  hopeless(
    'more frames than anybody has',
    `${TOP}${'  - photo: a.jpg\n'.repeat(50_001)}`,
    'crops.yaml has 50001 frames, and 50000 are the most. Split the session.',
  ),
];
