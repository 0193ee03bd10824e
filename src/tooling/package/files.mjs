// @ts-check
/** What the package holds: a list, so that nothing comes in by chance. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { project } from '../steps.mjs';
import { filesIn } from './files-in.mjs';
import { filesOfLibrary, packagedLibraries } from './libraries.mjs';

/** @typedef {import('./libraries.mjs').PackageFile} PackageFile */

/** Whole folders, and what of them. */
const FOLDERS = /** @type {readonly (readonly [folder: string, only: RegExp, to?: string])[]} */ ([
  ['dist/models', /\.onnx$/],
  // The README's pictures are in the package's own README.
  ['media', /^(?!readme\/).*\.(?:css|json|svg|png|jpg|md)$/],
  ['src/rules', /^[^/]+\/(?:README\.md|[^/]+\.svg)$/],
  ['src/session/pages', /\.md$/],
  ['docs/licences', /\.txt$/, 'licences'],
]);

/**
 * What is copied as it is; bundles, notices, README and manifest are made for the package.
 * @returns {PackageFile[]} sorted
 */
export function copiedFiles() {
  const files = [
    { from: join(project, 'CHANGELOG.md'), to: 'CHANGELOG.md' },
    { from: join(project, 'LICENSE'), to: 'LICENSE.txt' },
    ...FOLDERS.flatMap(([folder, only, to = folder]) =>
      filesBuilt(join(project, folder))
        .filter((path) => only.test(path))
        .map((path) => ({ from: join(project, folder, path), to: `${to}/${path}` })),
    ),
    ...packagedLibraries().flatMap(filesOfLibrary),
  ];
  return files.sort((first, second) => (first.to < second.to ? -1 : 1));
}

/** @param {string} folder */
function filesBuilt(folder) {
  if (!existsSync(folder)) throw new Error(`${folder} is not there. Run npm run build.`);
  return filesIn(folder);
}
