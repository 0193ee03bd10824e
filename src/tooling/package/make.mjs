// @ts-check
/** Makes the package that an editor installs, for the platform that this runs on. */
import { createWriteStream } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import yazl from 'yazl';
import { bundleExtension, bundlePanels, bundleRooms } from '../bundles.mjs';
import { project } from '../steps.mjs';
import { copiedFiles } from './files.mjs';
import { packagedLibraries } from './libraries.mjs';
import { noticesOf } from './notices.mjs';
import { contentTypes, packagedManifest, packagedReadme, PLATFORM, vsixManifest } from './texts.mjs';

/** Every part has it, so that equal content makes an equal package. */
const DATE = new Date(2026, 0, 1);

/**
 * @typedef {{ path: string, from: string } | { path: string, text: string }} Part path: in the package, with `/`
 * @typedef {{ path: string, bytes: number, parts: readonly string[] }} Made
 */

/**
 * Writes `NAME-PLATFORM-VERSION.vsix`, and removes packages of before. What is in `dist` is built already.
 * @param {string} [folder]
 * @returns {Promise<Made>}
 */
export async function makePackage(folder = join(project, 'dist')) {
  const parts = await packageParts();
  const { name, version } = packagedManifest();
  await mkdir(folder, { recursive: true });
  for (const old of await readdir(folder)) if (old.endsWith('.vsix')) await rm(join(folder, old));
  const path = join(folder, `${name}-${PLATFORM}-${version}.vsix`);
  await write(`${path}.part`, parts);
  await rename(`${path}.part`, path);
  return { path, bytes: (await stat(path)).size, parts: parts.map((part) => part.path) };
}

/**
 * All that the package consists of.
 * @returns {Promise<Part[]>}
 */
export async function packageParts() {
  const bundles = await mkdtemp(join(tmpdir(), 'selvedge-package-'));
  try {
    return await partsOf(bundles);
  } finally {
    await rm(bundles, { recursive: true, force: true });
  }
}

/** @param {string} bundles a folder for them */
async function partsOf(bundles) {
  const target = { folder: bundles, isPackaged: true };
  const metafiles = [await bundleExtension(target), await bundleRooms(target), await bundlePanels(target)];
  const libraries = [...new Set([...metafiles.flatMap(bundledLibraries), ...packagedLibraries()])];
  const manifest = packagedManifest();
  const inside = [
    { path: 'package.json', text: `${JSON.stringify(manifest, undefined, 2)}\n` },
    { path: 'README.md', text: packagedReadme() },
    { path: 'NOTICES.txt', text: noticesOf(libraries) },
    ...(await readdir(bundles)).sort().map((name) => ({ path: `dist/${name}`, from: join(bundles, name) })),
    ...copiedFiles().map(({ from, to }) => ({ path: to, from })),
  ].map((part) => ({ ...part, path: `extension/${part.path}` }));
  const outside = { path: 'extension.vsixmanifest', text: vsixManifest(manifest) };
  const paths = [outside, ...inside].map(({ path }) => path);
  // The bundles are read now: their folder goes away.
  return Promise.all(
    [{ path: '[Content_Types].xml', text: contentTypes(paths) }, outside, ...inside].map(async (part) =>
      'from' in part && part.from.startsWith(bundles)
        ? { path: part.path, text: await readFile(part.from, 'utf8') }
        : part,
    ),
  );
}

/** @param {import('esbuild').Metafile} metafile */
function bundledLibraries({ inputs }) {
  return Object.keys(inputs).flatMap((path) => {
    const [, name] = /(?:^|\/)node_modules\/((?:@[^/]+\/)?[^/]+)\/(?!.*node_modules\/)/.exec(path) ?? [];
    return name === undefined ? [] : [name];
  });
}

/**
 * @param {string} path
 * @param {readonly Part[]} parts
 */
async function write(path, parts) {
  const archive = new yazl.ZipFile();
  const options = { mtime: DATE, mode: 0o100644 };
  for (const part of parts) {
    if ('text' in part) archive.addBuffer(Buffer.from(part.text), part.path, options);
    else archive.addFile(part.from, part.path, options);
  }
  archive.end();
  await pipeline(archive.outputStream, createWriteStream(path));
}
