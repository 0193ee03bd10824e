import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { RECORD_NAME, RenderRecord } from './record.ts';

/**
 * Which of the files are copies that `render` wrote, by the records in folders below. What is in the folder itself is
 * not asked about: whoever names the very folder of rendered pictures means them.
 * @param files names under the folder, with `/`
 */
export async function renderedUnder(folder: string, files: readonly string[]): Promise<ReadonlySet<string>> {
  const places = new Set(files.flatMap(foldersOf));
  const rendered = new Set<string>();
  for (const place of places) {
    if (!existsSync(join(folder, place, RECORD_NAME))) continue;
    const record = await RenderRecord.open(join(folder, place));
    for (const file of files) {
      if (file.startsWith(`${place}/`) && record.knows(file.slice(place.length + 1))) rendered.add(file);
    }
  }
  return rendered;
}

/** `a/b/c.jpg`: `a/b` and `a`. */
function foldersOf(file: string): string[] {
  const parent = dirname(file);
  return parent === '.' ? [] : [parent, ...foldersOf(parent)];
}
