import { effectiveEdges } from '../../geometry/crop.ts';
import { isSameShape, orientationOf, shapeOf } from '../../geometry/ratio.ts';
import { PAPERS } from '../../geometry/paper-sizes.ts';
import type { Edges, Rectangle, Size } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import type { Frame, Output } from '../../manifest/manifest.ts';
import { tighterThan } from '../../people/lengths.ts';
import { foundLength } from '../../people/length-spans.ts';
import type { Configuration } from '../../rules/configuration.ts';
import type { Finding } from '../../rules/finding.ts';
import { isCoveredBy } from '../../rules/finding.ts';
import type { ActiveLimit } from '../../rules/active-limit.ts';
import { RULES } from '../../rules/index.ts';
import { printBleed } from '../../rules/print-bleed/index.ts';
import { printResolution } from '../../rules/print-resolution/index.ts';
import { checkScene } from '../../rules/report.ts';
import type { Scene } from '../../rules/scene.ts';
import { withCrop } from '../../rules/scene.ts';
import { sizeOfOutput } from './output-size.ts';
import { NearestSearch, reasonWithoutCrop } from '../../search/index.ts';

/** How one output cuts one frame. */
export interface OutputCrop {
  /** In fractions, as a manifest would write it. */
  readonly crop: Rectangle;
  /** Written under the frame's `deliver`, the frame's main crop itself, or found near it. */
  readonly from: 'own' | 'main' | 'found';
  /** The frame with this crop, as the rules see it. */
  readonly scene: Scene;
}

/**
 * The crop of a frame for an output: its own when one is written; the main crop when that has the output's shape, and
 * room for its bleed; else the nearest crop of that shape that breaks nothing, at the main crop's length or one tighter, or the one that breaks least.
 * @param scene the frame with its main crop
 * @returns why there is no such crop, in plain words, when there is none
 */
export function outputCrop(
  scene: Scene,
  configuration: Configuration,
  frame: Frame,
  output: Output,
): OutputCrop | { readonly reason: string } {
  const own = frame.deliver.get(output.id)?.value;
  if (own) {
    const crop = { x: own.x, y: own.y, w: own.w, h: own.h };
    const edges = effectiveEdges(crop, scene.photo, scene.degrees);
    return { crop, from: 'own', scene: withCrop(asked(scene, output, edges), edges) };
  }
  const present = widthOf(scene.crop) / heightOf(scene.crop);
  const wanted = asked(scene, output, scene.crop);
  const { shape } = wanted;
  const isShaped = shape === undefined || isSameShape(present, shape);
  if (isShaped && !checkScene(wanted, configuration, [printBleed]).some(isPressingFinding)) {
    return { crop: mainCrop(scene), from: 'main', scene: wanted };
  }
  return foundCrop(wanted, configuration, [...frame.allow.keys()]);
}

/** The frame as an output asks for it; the crop stays the frame's main one. */
function asked(scene: Scene, output: Output, crop: Edges): Scene {
  const shape = shapeOfOutput(output, scene.photo, crop);
  const { trimmed, bleed, safe, inches } = sizeOfOutput(output, crop, shape);
  const print = {
    bleed: { x: bleed / trimmed.width, y: bleed / trimmed.height },
    safe: { x: safe / trimmed.width, y: safe / trimmed.height },
    ...(inches !== undefined && { inches }),
  };
  return { ...scene, shape, print };
}

/** Width over height that an output asks for, held as it says or as the crop is held; undefined when it takes any. */
export function shapeOfOutput({ aspect, paper, orientation }: Output, photo: Size, crop: Edges): number | undefined {
  const photoIs = photo.width > photo.height ? 'lying' : 'upright';
  const held = orientation?.value ?? orientationOf(crop, photoIs);
  const named = paper && PAPERS.get(paper.value);
  if (named) return shapeOf({ a: named.short, b: named.long }, held);
  switch (aspect?.value.kind) {
    case 'ratio':
      return shapeOf(aspect.value, held);
    case 'original':
      return photo.width / photo.height;
    default:
      return undefined;
  }
}

function mainCrop({ crop, photo }: Scene): Rectangle {
  const { width, height } = photo;
  return { x: crop.left / width, y: crop.top / height, w: widthOf(crop) / width, h: heightOf(crop) / height };
}

function foundCrop(
  scene: Scene,
  configuration: Configuration,
  allow: readonly string[],
): OutputCrop | { readonly reason: string } {
  const length = scene.tallest && foundLength(scene.tallest, scene.crop);
  const closer = length && tighterThan(length);
  const search = new NearestSearch(scene, configuration);
  let least: { readonly found: OutputCrop; readonly weight: number } | undefined;
  for (const tightest of closer ? [length, closer] : [length]) {
    const answer = search.answer({ allow, only: isNotOfPixels, ...(tightest && { tightest }) });
    if (!answer) continue;
    const found: OutputCrop = { crop: answer.crop, from: 'found', scene: withCrop(scene, answer.edges) };
    const weight = weightOf(pressing(found.scene, configuration, allow));
    if (weight === 0) return found;
    if (!least || weight < least.weight) least = { found, weight };
  }
  if (least) return least.found;
  const reason = reasonWithoutCrop(scene, configuration, { allow });
  return { reason: reason ?? 'every crop of this shape comes more than one length closer' };
}

/** As the search weighs broken rules. */
function weightOf(findings: readonly Finding[]): number {
  return findings.reduce((sum, { rule }) => sum + (RULES.find(({ id }) => id === rule)?.weight ?? 0), 0);
}

function isNotOfPixels({ rule }: ActiveLimit): boolean {
  return rule !== printResolution;
}

function isPressingFinding({ severity }: Finding): boolean {
  return severity !== 'info';
}

/** What would make a check fail, and another crop near this one may mend: nobody wants another picture for more pixels. */
function pressing(scene: Scene, configuration: Configuration, allow: readonly string[]): Finding[] {
  const rules = RULES.filter((rule) => rule !== printResolution);
  return checkScene(scene, configuration, rules).filter(
    (finding) => isPressingFinding(finding) && !allow.some((key) => isCoveredBy(key, finding)),
  );
}
