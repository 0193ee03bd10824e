import { join } from 'node:path';
import { hasShared, SHARED_FOLDER } from './support/shared-folder.ts';

export const LABELLED_PHOTOS = join(SHARED_FOLDER, 'labelled-photos', 'coco');
export const DEMO_PHOTOS = join(SHARED_FOLDER, 'demo-photos');

/** Each says loudly, where its data is missing, that the crops are not held against it. */
export const hasLabelledPhotos = hasShared('labelled-photos', 'crops against human labels');
export const hasDemoPhotos = hasShared('demo-photos', 'crops against exact labels');
