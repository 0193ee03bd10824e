import type { Frame } from '../../manifest/manifest.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Configuration } from '../../rules/configuration.ts';
import type { Finding } from '../../rules/finding.ts';
import { identityOf, isCoveredBy } from '../../rules/finding.ts';
import { length } from '../../rules/length/index.ts';
import { checkScene } from '../../rules/report.ts';
import type { Scene } from '../../rules/scene.ts';
import { lengthChange } from '../length-change.ts';
import type { OutputCrop } from './output-crop.ts';

/**
 * A hint that a crop which was found for an output shows another length than the frame's main one: nobody has seen it yet.
 * @param main the frame with its main crop
 */
export function lengthRemark(
  configuration: Configuration,
  main: Scene,
  { crop, from, scene }: OutputCrop,
): Finding | undefined {
  const change = from === 'found' ? lengthChange(main, crop) : undefined;
  if (!change || configuration.get(length.id)?.severity === 'off') return undefined;
  const message = `This is ${LENGTH_WORDS[change.after]}; the main crop is ${LENGTH_WORDS[change.before]}. Write a crop under the frame’s deliver where you want another length.`;
  return { rule: length.id, severity: 'info', message, ...(scene.tallest && { person: scene.tallest.id }) };
}

/**
 * What has to be known about a file that is made of a crop, in the words that a check has for it: errors and warnings,
 * those that the main crop has too included, and the hint of another length.
 */
export function fileRemarks(configuration: Configuration, frame: Frame, main: Scene, found: OutputCrop): Finding[] {
  if (frame.final?.value === true) return [];
  const other = lengthRemark(configuration, main, found);
  const { tilt, horizon } = main;
  const ofCrop = checkScene({ ...found.scene, tilt, horizon }, configuration).filter(
    ({ severity }) => severity !== 'info',
  );
  return [...ofCrop, ...errorsNearby(configuration, main, found), ...(other ? [other] : [])].filter(
    (finding) => ![...frame.allow.keys()].some((key) => isCoveredBy(key, finding)),
  );
}

/** What is wrong with the main crop, where another one was found near it: what lies there may not be what was meant. */
function errorsNearby(configuration: Configuration, main: Scene, { from, scene }: OutputCrop): Finding[] {
  if (from !== 'found') return [];
  const known = new Set(checkScene(scene, configuration).map(identityOf));
  return checkScene(main, configuration)
    .filter((finding) => finding.severity === 'error' && !known.has(identityOf(finding)))
    .map((finding) => ({ ...finding, message: `This was found near a main crop with an error: ${finding.message}` }));
}
