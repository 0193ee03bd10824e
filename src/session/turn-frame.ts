import type { Rectangle } from '../geometry/shapes.ts';
import { EDGE_NAMES, diagonalOf } from '../geometry/shapes.ts';
import type { Finding } from '../rules/finding.ts';
import { identityOf, isCoveredBy } from '../rules/finding.ts';
import { turnedCrop } from '../rules/levelling.ts';
import { checkScene } from '../rules/report.ts';
import { levelFrame, straightenLess, type Levelled, type SearchOptions } from '../search/index.ts';
import type { RepairQuestion } from './repair.ts';

/** Rules that change a frame's `straighten` when they are asked for by name, and only then. */
const LEVELS = 'tilt';
const GIVES_BACK = 'straighten-cost';

/** A frame turned otherwise, with its crop. */
export interface TurnedFrame {
  readonly straighten: number;
  readonly crop: Rectangle;
  /** Sum of the four edges' moves against the same crop around the same place, over the photo's diagonal. */
  readonly moved: number;
  /** Errors, warnings and hints asked for that are left. */
  readonly remaining: readonly Finding[];
}

/**
 * What turning makes of a frame, when `tilt` or `straighten-cost` is asked for by name and speaks: levelled and cropped in
 * one step, or straightened less. Nothing that breaks something new; then the reason is given, where there is one.
 */
export function turnFrame(
  question: RepairQuestion,
  findings: readonly Finding[],
): { readonly turned?: TurnedFrame; readonly reason?: string } | undefined {
  const { scene, configuration, allow, rules = [], anyLength } = question;
  const isAsked = (rule: string, says: (finding: Finding) => boolean): boolean =>
    rules.includes(rule) && findings.some(says);
  // With no length named, as close as it takes.
  const options: SearchOptions = { allow, ...(anyLength && { tightest: 'close-up' }) };
  let levelled: Levelled | undefined;
  if (isAsked(LEVELS, ({ rule }) => rule === LEVELS)) levelled = levelFrame(scene, configuration, options);
  else if (isAsked(GIVES_BACK, ({ related = [] }) => related.some(({ rule }) => rule === GIVES_BACK))) {
    levelled = straightenLess(scene, configuration, options);
    if (!levelled) return undefined;
  } else return undefined;
  if (!levelled) return { reason: 'no crop of that shape holds every face once the picture is turned' };
  const pressing = (in_: Levelled['scene']): Finding[] =>
    checkScene(in_, configuration).filter(
      (finding) => finding.severity !== 'info' && !allow.some((key) => isCoveredBy(key, finding)),
    );
  const before = new Set(pressing(scene).map(identityOf));
  const remaining = pressing(levelled.scene);
  const added = remaining.find((finding) => !before.has(identityOf(finding)));
  if (added) {
    const why = levelled.broken.find(({ rule }) => rule === added.rule)?.reason();
    return { reason: `levelled, ${added.rule} would speak${why === undefined ? '' : `: ${why}`}` };
  }
  const reference = turnedCrop(scene, levelled.straighten);
  const { crop } = levelled.scene;
  const moves = EDGE_NAMES.reduce((sum, edge) => sum + Math.abs(crop[edge] - reference[edge]), 0);
  const { straighten, crop: written } = levelled;
  return { turned: { straighten, crop: written, moved: moves / diagonalOf(scene.photo), remaining } };
}
