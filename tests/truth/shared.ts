import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** The folder with labelled photographs beside the project; they are for tests only and never part of it. */
export const SHARED = process.env['SELVEDGE_SHARED'] ?? join(import.meta.dirname, '..', '..', '..', 'shared');

export const LABELLED_PHOTOS = join(SHARED, 'labelled-photos', 'coco');
export const DEMO_PHOTOS = join(SHARED, 'demo-photos');

export const hasLabelledPhotos = existsSync(join(LABELLED_PHOTOS, 'test_coco.json'));
export const hasDemoPhotos = existsSync(join(DEMO_PHOTOS, 'labels.json'));

/** Says loudly that tests against human labels do not run here, and why. */
export function sayWhatIsMissing(): void {
  if (!hasLabelledPhotos) {
    console.warn(
      `\n*** SKIPPED: no labelled photographs at ${LABELLED_PHOTOS}; set SELVEDGE_SHARED to their folder. ***\n`,
    );
  }
  if (!hasDemoPhotos) {
    console.warn(`\n*** SKIPPED: no exact labels at ${DEMO_PHOTOS}; set SELVEDGE_SHARED to their folder. ***\n`);
  }
}
