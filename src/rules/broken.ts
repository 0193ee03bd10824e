import { excess } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import { wholeBox } from '../people/whole-box.ts';
import { activeLimit, type ActiveLimit } from './active-limit.ts';
import type { RuleConfiguration } from './configuration.ts';
import { edgesNear } from './near-edges.ts';
import type { Limit, Rule, SettingValues } from './rule.ts';
import type { Scene } from './scene.ts';

/** Half of what a tenth of a pixel can be by rounding: a crop on the line itself is fine. */
const ON_THE_LINE = 1e-3;

/** A subject and everything that is known of where they are. */
export interface Body {
  readonly figure: Figure;
  readonly box: Edges;
}

export function bodiesOf(scene: Scene): Body[] {
  return scene.counted.map((figure) => ({ figure, box: wholeBox(figure) }));
}

/** The limits of a rule that the scene's own crop breaks. */
export function brokenHere(
  rule: Rule,
  scene: Scene,
  bodies: readonly Body[],
  { severity, settings }: RuleConfiguration,
): ActiveLimit[] {
  if (severity === 'off') return [];
  const broken: ActiveLimit[] = [];
  for (const limit of limitsHere(rule, scene, bodies, settings)) {
    if (isBroken(limit, scene.crop)) broken.push(activeLimit(rule, severity, limit));
  }
  return broken;
}

/** Those of a rule's limits that the scene's own crop may break: most bodies are far from most edges. */
function limitsHere(rule: Rule, scene: Scene, bodies: readonly Body[], settings: SettingValues): Limit[] {
  const { crop } = scene;
  const limits: Limit[] = [];
  if (rule.bodyLimits) {
    for (const { figure, box } of bodies) {
      const edges = edgesNear(box, crop, rule.bodyReach?.(figure, settings, crop) ?? 0);
      if (edges.length > 0) limits.push(...rule.bodyLimits(figure, settings, edges, crop));
    }
  }
  if (rule.limits) limits.push(...rule.limits(scene, settings));
  return limits;
}

/** Whether a crop with these edge lines breaks the limit: every escape is missed. */
export function isBroken(limit: Limit, edges: Edges): boolean {
  for (const escape of limit.escapes) {
    if (excess(escape, edges) <= ON_THE_LINE) return false;
  }
  return true;
}
