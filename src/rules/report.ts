import { excess } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import { shortSideOf } from '../geometry/shapes.ts';
import type { Configuration, RuleConfiguration } from './configuration.ts';
import type { Finding } from './finding.ts';
import { RULES } from './index.ts';
import type { ActiveLimit } from './active-limit.ts';
import type { Figure } from '../people/figure.ts';
import { wholeBox } from '../people/whole-box.ts';
import { bodyLimitsOf } from './body-limits.ts';
import { valueOf } from './limits.ts';
import { edgesNear } from './near-edges.ts';
import type { Limit, Rule, Severity } from './rule.ts';
import type { Scene } from './scene.ts';
import { withoutRepetition } from './repetition.ts';

/** Half of what a tenth of a pixel can be by rounding: a crop on the line itself is fine. */
const ON_THE_LINE = 1e-3;

/**
 * Every limit of every rule that is not off, for this scene. A rule that fails has none: `checkScene` says so, and the
 * others go on.
 */
export function activeLimits(
  scene: Scene,
  configuration: Configuration,
  rules: readonly Rule[] = RULES,
): ActiveLimit[] {
  const active: ActiveLimit[] = [];
  for (const rule of rules) {
    const before = active.length;
    try {
      addLimits(active, rule, scene, configuration.get(rule.id));
    } catch {
      active.length = before;
    }
  }
  return active;
}

function addLimits(to: ActiveLimit[], rule: Rule, scene: Scene, own: RuleConfiguration | undefined): void {
  if (!own || own.severity === 'off') return;
  const { severity } = own;
  for (const figure of scene.counted) {
    for (const active of bodyLimitsOf(rule, severity, figure, own)) to.push(active);
  }
  for (const limit of rule.limits?.(scene, own.settings) ?? []) to.push({ rule, severity, limit });
}

interface Body {
  readonly figure: Figure;
  /** Around everything known of it. */
  readonly box: Edges;
}

/** Those of a rule's limits that the scene's own crop may break: most bodies are far from most edges. */
function limitsHere(rule: Rule, scene: Scene, bodies: readonly Body[], { settings }: RuleConfiguration): Limit[] {
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

/**
 * What the rules say about the scene's crop, each place once. The only way a rule's word gets out. A rule that fails
 * becomes one finding of its own, with severity error.
 */
export function checkScene(
  scene: Scene,
  configuration: Configuration,
  rules: readonly Rule[] = RULES,
): readonly Finding[] {
  const here = { ...scene, isFixed: true };
  const bodies = scene.counted.map((figure) => ({ figure, box: wholeBox(figure) }));
  const findings: Finding[] = [];
  for (const rule of rules) {
    const own = configuration.get(rule.id);
    if (!own || own.severity === 'off') continue;
    try {
      for (const limit of limitsHere(rule, here, bodies, own)) {
        if (isBroken(limit, scene.crop)) findings.push(findingOf(rule, own.severity, limit, scene.crop));
      }
    } catch (error) {
      findings.push(failureOf(rule, error));
    }
  }
  return withoutRepetition(findings);
}

function failureOf(rule: Rule, error: unknown): Finding {
  const reason = (error instanceof Error ? error.message : String(error)).replace(/[\s.]+$/, '');
  return {
    rule: rule.id,
    severity: 'error',
    message: `This rule failed on this frame: ${reason}; please report it.`,
  };
}

function findingOf(rule: Rule, severity: Severity, limit: Limit, edges: Edges): Finding {
  const say = rule.messages[limit.message];
  if (!say) throw new Error(`Rule ${rule.id} has no message ${limit.message}.`);
  const value = limit.measure && measured(limit.measure, edges);
  const { person, joint, edge } = limit;
  const place = {
    ...(person !== undefined && { person }),
    ...(joint !== undefined && { joint }),
    ...(edge !== undefined && { edge }),
  };
  const message = say({ ...place, ...limit.arguments, possible: limit.possible ? 1 : 0 }, value ?? 0);
  return {
    rule: rule.id,
    severity,
    message,
    ...place,
    ...(value !== undefined && { value }),
    ...(limit.bound !== undefined && { limit: limit.bound }),
    ...(limit.possible && { possible: true }),
  };
}

function measured(measure: NonNullable<Limit['measure']>, edges: Edges): number {
  const per = measure.per === 'short-side' ? shortSideOf(edges) : valueOf(measure.per, edges);
  return per === 0 ? 0 : Math.round((valueOf(measure.of, edges) / per) * 1000) / 10;
}
