import type { Rectangle } from '../../geometry/shapes.ts';
import type { Frame, Output } from '../../manifest/manifest.ts';
import { foundLength } from '../../people/length-spans.ts';
import type { Length } from '../../people/lengths.ts';
import type { Configuration } from '../../rules/configuration.ts';
import type { Finding } from '../../rules/finding.ts';
import { identityOf } from '../../rules/finding.ts';
import { PRINT_RULES, RULES } from '../../rules/index.ts';
import { checkScene } from '../../rules/report.ts';
import type { Scene } from '../../rules/scene.ts';
import { causeInCrop, type LocatedFinding } from '../located-finding.ts';
import { outputCrop } from './output-crop.ts';
import { lengthRemark } from './output-remarks.ts';

/** The crop that an output has of a frame. */
export interface OutputCheck {
  /** In fractions. */
  readonly crop: Rectangle;
  /** It is the frame's main crop. */
  readonly isMain: boolean;
  readonly length: Length | undefined;
  /** All that is found of it, what another main crop has too included; where it is the main crop, what printing adds. */
  readonly findings: readonly Finding[];
}

export interface FoundOfOutputs {
  /** What is told beside the findings of the main crop. */
  readonly findings: readonly LocatedFinding[];
  /** By output; one that has no crop of the frame is not there. */
  readonly checks: ReadonlyMap<string, OutputCheck>;
}

/**
 * What is wrong with the crops that outputs have of a frame, on the frame's line or the output's own crop. What the main
 * crop has too is not said again; hints are told of crops that somebody wrote, and that a crop shows another length than the main one.
 * @param scene the frame with its main crop
 * @param main what is found about that
 */
export function findInOutputs(
  outputs: readonly Output[],
  configuration: Configuration,
  frame: Frame,
  scene: Scene,
  main: readonly Finding[],
): FoundOfOutputs {
  const known = new Set(main.map(identityOf));
  const checks = new Map<string, OutputCheck>();
  const findings = outputs.flatMap((output) => {
    // A crop that cannot be read is told as such, and nothing is found in its place.
    if (frame.unread.has('deliver') && !frame.deliver.has(output.id)) return [];
    const found = outputCrop(scene, configuration, frame, output);
    if ('reason' in found)
      return [withoutCrop(frame, output, found.reason, configuration)].filter((one) => one !== undefined);
    const own = frame.deliver.get(output.id);
    const said = checkScene(found.scene, configuration, found.from === 'main' ? PRINT_RULES : RULES);
    const { crop, from, scene: cut } = found;
    const length = cut.tallest && foundLength(cut.tallest, cut.crop);
    checks.set(output.id, { crop, isMain: from === 'main', length, findings: said });
    const told = said.filter(
      (finding) => !known.has(identityOf(finding)) && (own !== undefined || finding.severity !== 'info'),
    );
    const other = lengthRemark(configuration, scene, found);
    return [...told, ...(other && !told.some(({ rule }) => rule === other.rule) ? [other] : [])].map(
      (finding): LocatedFinding => ({
        ...finding,
        message: `Output ${output.id}: ${finding.message}${found.from === 'found' && isOfCrop(finding) ? ' No crop of this shape near the main one is better.' : ''}`,
        output: output.id,
        range: own ? causeInCrop(own, finding) : frame.photo.range,
      }),
    );
  });
  return { findings, checks };
}

/** Whether a better crop would mend it. */
function isOfCrop({ rule, severity }: Finding): boolean {
  return rule !== 'print-resolution' && severity !== 'info';
}

function withoutCrop(
  frame: Frame,
  { id }: Output,
  reason: string,
  configuration: Configuration,
): LocatedFinding | undefined {
  const severity = configuration.get('aspect')?.severity ?? 'warning';
  if (severity === 'off') return undefined;
  const message = `Output ${id}: there is no crop of this shape: ${reason}. Write one under the frame’s deliver.`;
  return { rule: 'aspect', severity, message, output: id, range: frame.photo.range };
}
