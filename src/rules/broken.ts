import { excess } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import { wholeBox } from '../people/whole-box.ts';
import { activeLimit, type ActiveLimit } from './active-limit.ts';
import type { RuleConfiguration } from './configuration.ts';
import { edgesNear } from './near-edges.ts';
import type { Limit, Rule } from './rule.ts';
import type { Scene } from './scene.ts';

/** Half of what a tenth of a pixel can be by rounding: a crop on the line itself is fine. */
const ON_THE_LINE = 1e-3;

const NONE: readonly ActiveLimit[] = [];

/** A subject and everything that is known of where they are. */
export interface Body {
  readonly figure: Figure;
  readonly box: Edges;
}

export function bodiesOf(scene: Scene): Body[] {
  return scene.counted.map((figure) => ({ figure, box: wholeBox(figure) }));
}

/** The limits of a rule that the scene's own crop breaks. Most bodies are far from most edges: those are not asked about. */
export function brokenHere(
  rule: Rule,
  scene: Scene,
  bodies: readonly Body[],
  { severity, settings }: RuleConfiguration,
): readonly ActiveLimit[] {
  if (severity === 'off') return NONE;
  const { crop } = scene;
  const broken: ActiveLimit[] = [];
  const take = (limits: readonly Limit[]): void => {
    for (const limit of limits) if (isBroken(limit, crop)) broken.push(activeLimit(rule, severity, limit));
  };
  if (rule.bodyLimits) {
    for (const { figure, box } of bodies) {
      const edges = edgesNear(box, crop, rule.bodyReach?.(figure, settings, crop) ?? 0);
      if (edges.length > 0) take(rule.bodyLimits(figure, settings, edges, crop));
    }
  }
  if (rule.limits) take(rule.limits(scene, settings));
  return broken;
}

/** Whether a crop with these edge lines breaks the limit: every escape is missed. */
export function isBroken(limit: Limit, edges: Edges): boolean {
  for (const escape of limit.escapes) {
    if (excess(escape, edges) <= ON_THE_LINE) return false;
  }
  return true;
}
