import type { Problem } from '../manifest/manifest.ts';
import type { Session } from './session.ts';

/** Keys over all frames that say what a crop is and how it should look. */
const DECIDING = ['selvedge', 'aspect', 'compose'];

/**
 * What is wrong with the manifest as a whole so that no frame may be changed: a version of the format that this program
 * does not read, a merge in which nobody has chosen between two versions yet, or a shape or composition for all frames
 * that cannot be read or whose key is misspelt. Other faults over the frames stop none of them.
 */
export function problemOfWhole({ manifest }: Session): Problem | undefined {
  return manifest.problems.find(
    ({ code, frame, severity, suggestion, key }) =>
      code === 'unfinished-merge' ||
      (frame === undefined &&
        ((severity === 'error' && key !== undefined && DECIDING.includes(key)) ||
          (suggestion !== undefined && DECIDING.includes(suggestion)))),
  );
}
