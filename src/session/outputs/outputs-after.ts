import type { Frame } from '../../manifest/manifest.ts';
import type { Finding } from '../../rules/finding.ts';
import { outputsOf } from '../check-context.ts';
import { withAllowance } from '../frame-check.ts';
import { defaultsOf, sceneOfFrame, withoutLines, type Cropping } from '../frame-scene.ts';
import { isPressing, type LocatedFinding } from '../located-finding.ts';
import type { Session } from '../session.ts';
import { findInOutputs } from './output-findings.ts';

/**
 * The errors and warnings that a check would find about the outputs of a frame once it has another main crop; on the text
 * as it is now.
 * @param main what is then left to say of the main crop
 */
export function outputsAfter(
  { manifest, configuration, people }: Session,
  frame: Frame,
  cropping: Cropping,
  main: readonly Finding[],
): LocatedFinding[] {
  const outputs = outputsOf(manifest);
  const measured = people.photos.get(frame.photo.value);
  if (outputs.length === 0 || !measured) return [];
  const scene = sceneOfFrame(defaultsOf(manifest), frame, measured.size, measured.people, measured, cropping);
  return findInOutputs(outputs, configuration.crops, frame, withoutLines(scene), main)
    .findings.map((finding) => withAllowance(frame, finding))
    .filter(isPressing);
}
