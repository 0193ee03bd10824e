import type { Problem } from '../manifest/manifest.ts';
import type { Session } from './session.ts';

/**
 * What is wrong with the manifest as a whole so that no frame may be changed: a version of the format that this program
 * does not read, or a shape, rules or anything else over the frames that is not what was meant. A key that is unknown
 * and like none of ours changes nothing.
 */
export function problemOfWhole({ manifest }: Session): Problem | undefined {
  const { framesRange } = manifest;
  return manifest.problems.find(
    ({ frame, severity, suggestion, range }) =>
      frame === undefined &&
      (severity === 'error' || suggestion !== undefined) &&
      !(framesRange && range.start >= framesRange.start && range.end <= framesRange.end),
  );
}
