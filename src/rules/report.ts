import type { Edges } from '../geometry/shapes.ts';
import { shortSideOf } from '../geometry/shapes.ts';
import type { Configuration, RuleConfiguration } from './configuration.ts';
import type { Finding, RelatedFact } from './finding.ts';
import { RULES } from './index.ts';
import { activeLimit, type ActiveLimit } from './active-limit.ts';
import { bodyLimitsOf } from './body-limits.ts';
import { valueOf } from './limits.ts';
import type { Limit, Remark, Rule, Severity } from './rule.ts';
import { bodiesOf, brokenHere } from './broken.ts';
import type { Scene } from './scene.ts';
import { withoutRepetition } from './repetition.ts';

export { isBroken } from './broken.ts';

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
  for (const limit of rule.limits?.(scene, own.settings) ?? []) to.push(activeLimit(rule, severity, limit));
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
  const bodies = bodiesOf(scene);
  const explaining = rules.filter((rule) => rule.explain && isOn(configuration.get(rule.id)));
  const findings: Finding[] = [];
  for (const rule of rules) {
    const own = configuration.get(rule.id);
    if (!isOn(own)) continue;
    try {
      for (const active of brokenHere(rule, here, bodies, own)) {
        const finding = findingOf(active, scene.crop);
        const related = explaining.flatMap((other) => factsOf(other, here, active));
        findings.push(related.length > 0 ? { ...finding, related } : finding);
      }
      for (const remark of rule.check?.(here, own.settings, configuration) ?? [])
        findings.push(told(rule, own, remark));
    } catch (error) {
      findings.push(failureOf(rule, error));
    }
  }
  return withoutRepetition(findings);
}

function isOn(own: RuleConfiguration | undefined): own is ActiveConfiguration {
  return own !== undefined && own.severity !== 'off';
}

type ActiveConfiguration = RuleConfiguration & { readonly severity: Severity };

function told(rule: Rule, { severity }: ActiveConfiguration, remark: Remark): Finding {
  const { value, bound, person } = remark;
  return {
    rule: rule.id,
    severity,
    message: sayer(rule, remark.message)({ ...(person !== undefined && { person }), ...remark.arguments }, value ?? 0),
    ...(person !== undefined && { person }),
    ...(value !== undefined && { value }),
    ...(bound !== undefined && { limit: bound }),
  };
}

function factsOf(rule: Rule, scene: Scene, active: ActiveLimit): RelatedFact[] {
  const remark = rule.explain?.(scene, active);
  if (!remark) return [];
  return [{ rule: rule.id, message: sayer(rule, remark.message)(remark.arguments, remark.value ?? 0) }];
}

function sayer(rule: Rule, message: string): Rule['messages'][string] {
  const say = rule.messages[message];
  if (!say) throw new Error(`Rule ${rule.id} has no message ${message}.`);
  return say;
}

function failureOf(rule: Rule, error: unknown): Finding {
  const reason = (error instanceof Error ? error.message : String(error)).replace(/[\s.]+$/, '');
  return {
    rule: rule.id,
    severity: 'error',
    message: `This rule failed on this frame: ${reason}; please report it.`,
  };
}

function findingOf({ rule, severity, limit }: ActiveLimit, edges: Edges): Finding {
  const say = sayer(rule, limit.message);
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
