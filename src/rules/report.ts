import { excess } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import type { Configuration } from './configuration.ts';
import type { Finding } from './finding.ts';
import { RULES } from './index.ts';
import { valueOf } from './limits.ts';
import type { Limit, Rule, Severity } from './rule.ts';
import type { Scene } from './scene.ts';
import { withoutRepetition } from './repetition.ts';

/** Half of what a tenth of a pixel can be by rounding: a crop on the line itself is fine. */
const ON_THE_LINE = 1e-3;

/** A limit with the rule it belongs to and the severity it has in this session. */
export interface ActiveLimit {
  readonly rule: Rule;
  readonly severity: Severity;
  readonly limit: Limit;
}

/** Every limit of every rule that is not off, for this scene. */
export function activeLimits(scene: Scene, configuration: Configuration): ActiveLimit[] {
  return RULES.flatMap((rule) => {
    const own = configuration.get(rule.id);
    if (!own || own.severity === 'off' || !rule.limits) return [];
    const { severity } = own;
    return rule.limits(scene, own.settings).map((limit) => ({ rule, severity, limit }));
  });
}

/** Whether a crop with these edge lines breaks the limit: every escape is missed. */
export function isBroken(limit: Limit, edges: Edges): boolean {
  return limit.escapes.every((escape) => excess(escape, edges) > ON_THE_LINE);
}

/** What the rules say about the scene's crop, each place once. The only way a rule's word gets out. */
export function checkScene(scene: Scene, configuration: Configuration): Finding[] {
  const broken = activeLimits(scene, configuration).filter(({ limit }) => isBroken(limit, scene.crop));
  return withoutRepetition(broken.map((active) => findingOf(active, scene.crop)));
}

function findingOf({ rule, severity, limit }: ActiveLimit, edges: Edges): Finding {
  const say = rule.messages[limit.message];
  if (!say) throw new Error(`Rule ${rule.id} has no message ${limit.message}.`);
  const value = limit.measure && measured(limit.measure, edges);
  const message = say({ ...limit.arguments, possible: limit.possible ? 1 : 0 }, value ?? 0);
  return {
    rule: rule.id,
    severity,
    message,
    ...(limit.person !== undefined && { person: limit.person }),
    ...(limit.joint !== undefined && { joint: limit.joint }),
    ...(limit.edge !== undefined && { edge: limit.edge }),
    ...(value !== undefined && { value }),
    ...(limit.bound !== undefined && { limit: limit.bound }),
    ...(limit.possible && { possible: true }),
  };
}

function measured(measure: NonNullable<Limit['measure']>, edges: Edges): number {
  const per = valueOf(measure.per, edges);
  return per === 0 ? 0 : Math.round((valueOf(measure.of, edges) / per) * 1000) / 10;
}
