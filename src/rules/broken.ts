import { excess } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import { wholeBox } from '../people/whole-box.ts';
import type { ActiveLimit } from './active-limit.ts';
import type { RuleConfiguration } from './configuration.ts';
import { edgesNear } from './near-edges.ts';
import type { Limit, Rule } from './rule.ts';
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
export function brokenHere(rule: Rule, scene: Scene, bodies: readonly Body[], own: RuleConfiguration): ActiveLimit[] {
  return limitsHere(rule, scene, bodies, own).filter(({ limit }) => isBroken(limit, scene.crop));
}

/** Those of a rule's limits that the scene's own crop may break: most bodies are far from most edges. */
function limitsHere(rule: Rule, scene: Scene, bodies: readonly Body[], own: RuleConfiguration): ActiveLimit[] {
  const { severity, settings } = own;
  if (severity === 'off') return [];
  const { crop } = scene;
  const ofBodies = bodies.flatMap(({ figure, box }) => {
    if (!rule.bodyLimits) return [];
    const edges = edgesNear(box, crop, rule.bodyReach?.(figure, settings, crop) ?? 0);
    return edges.length > 0 ? rule.bodyLimits(figure, settings, edges, crop) : [];
  });
  const ofFrame = rule.limits?.(scene, settings) ?? [];
  return [...ofBodies, ...ofFrame].map((limit) => ({ rule, severity, limit }));
}

/** Whether a crop with these edge lines breaks the limit: every escape is missed. */
export function isBroken(limit: Limit, edges: Edges): boolean {
  return limit.escapes.every((escape) => excess(escape, edges) > ON_THE_LINE);
}
