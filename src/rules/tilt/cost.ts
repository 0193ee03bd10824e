import type { EdgeName } from '../../geometry/shapes.ts';
import { EDGE_NAMES, heightOf } from '../../geometry/shapes.ts';
import { isInCrop, type Figure } from '../../people/figure.ts';
import { foundLength } from '../../people/length-spans.ts';
import type { Length } from '../../people/lengths.ts';
import { identityOfLimit, type ActiveLimit } from '../active-limit.ts';
import { bodiesOf, brokenHere } from '../broken.ts';
import type { Configuration } from '../configuration.ts';
import { footCut } from '../foot-cut/index.ts';
import { jointCut } from '../joint-cut/index.ts';
import { levelledScene, turnedCrop } from '../levelling.ts';
import { isBefore } from '../limits.ts';
import type { Scene } from '../scene.ts';

/** A gap between a body and an edge, before and after, in pixels; negative where the edge cuts into the body. */
export interface Gap {
  readonly person: number;
  readonly before: number;
  readonly after: number;
}

/** What levelling a frame takes from it. */
export interface LevellingCost {
  /** The margin that each edge loses, in pixels: of the same crop around the same place, what lies outside. */
  readonly losses: Readonly<Record<EdgeName, number>>;
  /** The narrowest gap under the feet that gets narrower, and the narrowest over a head; wide ones are left out. */
  readonly under: Gap | undefined;
  readonly over: Gap | undefined;
  /** What would newly be cut. */
  readonly cuts: readonly ActiveLimit[];
  /** The lengths that the crop shows before and after, where they differ. */
  readonly lengths: readonly [before: Length, after: Length] | undefined;
}

/** A gap wider than this share of the crop's height is room enough. */
const ROOM_ENOUGH = 0.08;

/** What comes of levelling the scene by turning it to `degrees`, with the largest crop of its shape that is left. */
export function levellingCost(scene: Scene, degrees: number, configuration: Configuration): LevellingCost {
  const levelled = levelledScene(scene, degrees);
  const asWas = turnedCrop(scene, degrees);
  const lost = (edge: EdgeName): number => (isBefore(edge) ? 1 : -1) * (levelled.crop[edge] - asWas[edge]);
  const losses = Object.fromEntries(EDGE_NAMES.map((edge) => [edge, lost(edge)])) as Record<EdgeName, number>;
  const shrunk = EDGE_NAMES.some((edge) => losses[edge] > 0.5);
  return {
    losses,
    under: gapOf(scene, levelled, (figure, view) => view.crop.bottom - lowestOf(figure), hasFeet),
    over: gapOf(scene, levelled, (figure, view) => (figure.headTop?.y ?? NaN) - view.crop.top, hasHead),
    cuts: shrunk ? newCuts(scene, levelled, configuration) : [],
    lengths: shrunk ? otherLengths(scene, levelled) : undefined,
  };
}

function otherLengths(scene: Scene, levelled: Scene): LevellingCost['lengths'] {
  if (!scene.tallest || !levelled.tallest) return undefined;
  const before = foundLength(scene.tallest, scene.crop);
  const after = foundLength(levelled.tallest, levelled.crop);
  return before === after ? undefined : [before, after];
}

/** Where shoes or hem end, in pixels of the turned picture. */
function lowestOf({ outline, extent, lines }: Figure): number {
  return outline && outline.length > 2 ? extent.bottom : lines.sole;
}

function hasFeet({ feet, lines }: Figure): boolean {
  return feet.length > 0 || lines.hemHidesFeet;
}

function hasHead({ headTop }: Figure): boolean {
  return headTop !== undefined;
}

function gapOf(
  scene: Scene,
  levelled: Scene,
  measure: (figure: Figure, view: Scene) => number,
  isMeasured: (figure: Figure) => boolean,
): Gap | undefined {
  let narrowest: Gap | undefined;
  scene.counted.forEach((figure, index) => {
    const turned = levelled.counted[index]!;
    if (!isMeasured(figure) || !isMeasured(turned) || !isInCrop(figure, scene.crop)) return;
    const before = measure(figure, scene);
    const after = measure(turned, levelled);
    // Where the edge cuts already, there is no gap to lose.
    if (before <= 0 || after >= before - 1 || after > ROOM_ENOUGH * heightOf(levelled.crop)) return;
    if (!narrowest || after < narrowest.after) narrowest = { person: figure.id, before, after };
  });
  return narrowest;
}

/** Joints and feet that the levelled crop cuts and the present one does not. */
function newCuts(scene: Scene, levelled: Scene, configuration: Configuration): ActiveLimit[] {
  return [jointCut, footCut].flatMap((rule) => {
    const own = configuration.get(rule.id);
    if (!own || own.severity === 'off') return [];
    const after = brokenHere(rule, levelled, bodiesOf(levelled), own);
    if (after.length === 0) return [];
    const before = new Set(brokenHere(rule, scene, bodiesOf(scene), own).map(identityOfLimit));
    return after.filter((active) => !before.has(identityOfLimit(active)));
  });
}
