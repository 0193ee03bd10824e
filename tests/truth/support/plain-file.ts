import type { FileOptions } from '../../../src/photos/render/render.ts';

/** A rendered file with nothing added and nothing taken away but the photo's metadata. */
export const PLAIN_FILE: FileOptions = {
  format: 'png',
  profile: 'srgb',
  sharpen: false,
  metadata: { kept: 'none', location: false },
};
