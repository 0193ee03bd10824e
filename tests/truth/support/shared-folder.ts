import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT_FOLDER } from './project.ts';

/** The folder with test data that is never copied into the project: beside it, or where SELVEDGE_SHARED says. */
export const SHARED_FOLDER = process.env['SELVEDGE_SHARED'] ?? join(PROJECT_FOLDER, '..', 'shared');

export const LABELLED_PHOTOS = join(SHARED_FOLDER, 'labelled-photos', 'coco');
export const DEMO_PHOTOS = join(SHARED_FOLDER, 'demo-photos');

/** Says loudly why tests are skipped when their data is not there. */
export function hasShared(part: string, what: string): boolean {
  const folder = join(SHARED_FOLDER, part);
  if (existsSync(folder)) return true;
  console.warn(`SKIPPED: ${what}. There is no folder "${part}" in "../shared" (set SELVEDGE_SHARED to where it is).`);
  return false;
}
