import { hasShared } from './support/shared-folder.ts';

export { DEMO_PHOTOS, LABELLED_PHOTOS } from './support/shared-folder.ts';

/** Each says loudly, where its data is missing, that the crops are not held against it. */
export const hasLabelledPhotos = hasShared('labelled-photos', 'crops against human labels');
export const hasDemoPhotos = hasShared('demo-photos', 'crops against exact labels');
