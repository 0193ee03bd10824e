import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { folderWith } from '../../cli/workspace.ts';
import { GOOD, manifest, TOP, type Row } from './row.ts';

/** In line 6, where the frame stands. */
function refused(written: string): string {
  const meaning =
    'a photo is named relative to the photos folder, with / between folders, no .. and no control characters';
  return `crops.yaml:6:12  error  photo is ${written}: ${meaning}, in at most 1024 letters.  [manifest]`;
}

function notThere(shown: string): string {
  const remedy = 'Check the name, put the photo into the photos folder, or remove the frame.';
  return `crops.yaml:6:12  error  ${shown} is not there. ${remedy}  [photo-missing]`;
}

const NONE_HERE =
  'info  None of the photos is here: the frames are checked from the people file alone.  [photo-missing]';

/** A frame whose photo is written so. */
function photo(name: string, written: string, ...says: string[]): Row {
  return { name, files: { 'crops.yaml': manifest(`  - photo: ${written}\n`) }, exit: 1, says };
}

/** A frame whose photo is a link to somewhere else; with `proofs/` as the photos folder. */
function link(name: string, prepare: (folder: string) => void, ...says: string[]): Row {
  const files = { 'crops.yaml': `photos: proofs\n${manifest('  - photo: a.jpg\n')}` };
  return { name, files, prepare, exit: 1, says };
}

/** A manifest that names this folder for its photos. */
function folder(name: string, written: string, ...says: string[]): Row {
  return {
    name,
    files: { 'crops.yaml': `${TOP.replace('frames:', `photos: ${written}\nframes:`)}${GOOD}` },
    exit: 1,
    says,
  };
}

const OUTSIDE = folderWith({ 'secret.jpg': 'secret' });

/** Photos and folders that lead out of the session, or nowhere. */
export const NAMES: readonly Row[] = [
  photo('up one folder', '../secret.jpg', refused('"../secret.jpg"')),
  photo('up from a folder below', 'proofs/../../secret.jpg', refused('"proofs/../../secret.jpg"')),
  photo('only up', '..', refused('".."')),
  photo('an absolute path', '/etc/passwd', refused('"/etc/passwd"')),
  photo('a drive letter', 'C:/photos/a.jpg', refused('"C:/photos/a.jpg"')),
  photo('a drive letter without a slash', 'C:a.jpg', refused('"C:a.jpg"')),
  photo('backslashes', "'..\\secret.jpg'", refused('"..\\secret.jpg"')),
  photo('a server', "'\\\\server\\share\\a.jpg'", refused('"\\\\server\\share\\a.jpg"')),
  photo('two slashes', '//server/share/a.jpg', refused('"//server/share/a.jpg"')),
  photo('an address', 'https://example.org/a.jpg', notThere('https://example.org/a.jpg')),
  photo('dots in disguise', "'%2e%2e/secret.jpg'", notThere('%2e%2e/secret.jpg')),
  {
    ...photo(
      'the folder itself',
      '.',
      'crops.yaml:6:12  error  .: The photo cannot be read: it is a folder. Put the picture itself there.  [photo-missing]',
    ),
    fix: 'leaves',
  },
  {
    ...photo(
      'the manifest itself',
      'crops.yaml',
      'crops.yaml:6:12  error  crops.yaml: The file is not a picture that can be read (JPEG, PNG, TIFF, WebP, AVIF).  [photo-missing]',
    ),
    fix: 'leaves',
  },
  photo('nothing', '""', refused('""')),
  photo('no name', '', 'crops.yaml:6:5  error  photo has no value: write one, such as 0142.jpg.  [manifest]'),
  photo('a number beyond writing', '.nan', notThere('.nan')),
  photo('a list', '[a.jpg]', 'crops.yaml:6:12  error  photo cannot be a list: it is text.  [manifest]'),
  photo('a map', '{ name: a.jpg }', 'crops.yaml:6:12  error  photo cannot be a map: it is text.  [manifest]'),
  photo('true', 'true', 'crops.yaml:6:12  error  photo is true: put it in quotes if it is meant as text.  [manifest]'),
  photo('a line break in the name', '"a\\nb.jpg"', refused('"a\\nb.jpg"')),
  photo('an escape sequence in the name', '"a\\e[31mb.jpg"', refused('"a\\u001b[31mb.jpg"')),
  photo('a NUL in the name', '"a\\0.jpg"', refused('"a\\u0000.jpg"')),
  photo('an 8-bit escape sequence in the name', '"a\\u009b31mb.jpg"', notThere('a\\u009b31mb.jpg')),
  photo('a name that reads backwards', '"a\\u202egpj.exe"', notThere('a\\u202egpj.exe')),
  photo('markup in the name', "'<img src=x onerror=alert(1)>.jpg'", notThere('<img src=x onerror=alert(1)>.jpg')),
  photo('a command in the name', "'$(touch owned).jpg; rm -rf .'", notThere('$(touch owned).jpg; rm -rf .')),
  photo(
    'a name of a hundred thousand letters',
    `${'a'.repeat(100_000)}.jpg`,
    refused('"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa…'),
  ),
  {
    ...link(
      'a link out of the folder',
      (home) => {
        mkdirSync(join(home, 'proofs'));
        symlinkSync(join(OUTSIDE, 'secret.jpg'), join(home, 'proofs', 'a.jpg'));
      },
      'crops.yaml:7:12  error  a.jpg leads out of the photos folder and is not read. Put the photo itself into the folder.  [photo-missing]',
    ),
    fix: 'leaves',
  },
  link(
    'a folder that is a link out',
    (home) => {
      symlinkSync(OUTSIDE, join(home, 'proofs'));
    },
    'crops.yaml:1:9  error  "proofs" leads out of the session’s folder and is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  link(
    'a photo that is links in a circle',
    (home) => {
      mkdirSync(join(home, 'proofs'));
      symlinkSync('a.jpg', join(home, 'proofs', 'a.jpg'));
    },
    NONE_HERE,
  ),
  {
    ...link(
      'a link to the manifest',
      (home) => {
        mkdirSync(join(home, 'proofs'));
        symlinkSync('../crops.yaml', join(home, 'proofs', 'a.jpg'));
      },
      'crops.yaml:7:12  error  a.jpg leads out of the photos folder and is not read. Put the photo itself into the folder.  [photo-missing]',
    ),
    fix: 'leaves',
  },
  link(
    'a file where the folder should be',
    (home) => {
      writeFileSync(join(home, 'proofs'), 'not a folder');
    },
    NONE_HERE,
  ),
  folder(
    'photos: up',
    '..',
    'crops.yaml:5:9  error  ".." leads out of the session’s folder and is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  folder(
    'photos: up and down again',
    '../proofs',
    'crops.yaml:5:9  error  "../proofs" leads out of the session’s folder and is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  folder(
    'photos: the root',
    '/',
    'crops.yaml:5:9  error  photos must be relative to this file; "/" is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  folder(
    'photos: a drive',
    "'D:\\shoots'",
    'crops.yaml:5:9  error  photos must be relative to this file; "D:\\shoots" is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  folder(
    'photos: a server',
    "'\\\\server\\share'",
    'crops.yaml:5:9  error  photos must be relative to this file; "\\\\server\\share" is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  folder(
    'photos: somebody’s home',
    '/var/secret',
    'crops.yaml:5:9  error  photos must be relative to this file; "/var/secret" is not used. Name a folder inside the session’s own, or say where the photos are with --photos DIR.  [manifest]',
  ),
  folder(
    'photos: a NUL',
    '"proofs\\0"',
    'crops.yaml:5:9  error  photos is "proofs\\u0000": photos names a folder, relative to this file, without control characters.  [manifest]',
  ),
  folder('photos: an escape sequence', '"\\u009b31mproofs/.."', NONE_HERE),
  folder('photos: a list', '[proofs]', 'crops.yaml:5:9  error  photos cannot be a list: it is text.  [manifest]'),
  folder('photos: not there', 'nowhere', NONE_HERE),
];
