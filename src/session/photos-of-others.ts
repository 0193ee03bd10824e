import { dirname, join, resolve } from 'node:path';
import { INPUT_LIMITS } from '../input-limits.ts';
import { DEFAULT_PHOTOS } from '../manifest/manifest.ts';
import { parseManifest } from '../manifest/parse.ts';
import { manifestNamesIn } from './find-manifest.ts';
import { findPhotosFolder } from './photos-folder.ts';
import { realPlace } from './real-place.ts';
import { readTextFile } from './text-file.ts';

/**
 * The manifest whose photos lie in this very folder: one in the folder itself or in a folder above it. Nothing is written
 * beside anybody's originals.
 * @param place whole path, links followed
 * @returns undefined when it is nobody's folder of photos
 */
export async function manifestWithPhotosIn(place: string): Promise<string | undefined> {
  for (let folder = place; ; folder = dirname(folder)) {
    for (const name of await manifestNamesIn(folder)) {
      const manifest = join(folder, name);
      for (const photos of await photoFoldersOf(manifest)) if ((await realPlace(photos)) === place) return manifest;
    }
    if (folder === dirname(folder)) return undefined;
  }
}

/** The folders in which its photos lie; of a manifest that cannot be read nothing is known. */
async function photoFoldersOf(manifest: string): Promise<ReadonlySet<string>> {
  const text = await readTextFile(manifest, INPUT_LIMITS.manifestBytes).catch(() => undefined);
  if (text === undefined) return new Set();
  const { photos, frames } = parseManifest(text, []);
  const found = await findPhotosFolder(manifest, photos?.value ?? DEFAULT_PHOTOS, undefined);
  if ('refused' in found) return new Set();
  return new Set(frames.map(({ photo }) => dirname(resolve(found.path, photo.value))));
}
