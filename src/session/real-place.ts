import { realpath } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Where a path leads, links followed as far as it is there. */
export async function realPlace(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch {
    const parent = dirname(path);
    return parent === path ? path : join(await realPlace(parent), basename(path));
  }
}
