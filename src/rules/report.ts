import type { Edges } from '../geometry/shapes.ts';
import { shortSideOf } from '../geometry/shapes.ts';
import type { Configuration, RuleConfiguration } from './configuration.ts';
import type { Finding, RelatedFact } from './finding.ts';
import { RULES } from './index.ts';
import { activeLimit, type ActiveLimit } from './active-limit.ts';
import { bodyLimitsOf } from './body-limits.ts';
import { valueOf } from './limits.ts';
import type { Limit, MessageArguments, Remark, Rule, Severity } from './rule.ts';
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
  const explaining = rules.filter(({ id, explain }) => explain && isOn(configuration.get(id)));
  const findings: Finding[] = [];
  for (const rule of rules) {
    const own = configuration.get(rule.id);
    if (!isOn(own)) continue;
    try {
      for (const active of brokenHere(rule, here, bodies, own)) {
        findings.push(findingOf(active, here, factsOf(active, here, explaining)));
      }
      for (const remark of rule.check?.(here, own.settings, configuration) ?? NO_REMARKS)
        findings.push(told(rule, own, remark));
    } catch (error) {
      findings.push(failureOf(rule, error));
    }
  }
  return withoutRepetition(findings);
}

const NO_REMARKS: readonly Remark[] = [];

function isOn(own: RuleConfiguration | undefined): own is ActiveConfiguration {
  return own !== undefined && own.severity !== 'off';
}

type ActiveConfiguration = RuleConfiguration & { readonly severity: Severity };

function told(rule: Rule, { severity }: ActiveConfiguration, remark: Remark): Finding {
  const { message, value, bound, person } = remark;
  const words = { ...(person !== undefined && { person }), ...remark.arguments };
  return finding(rule.id, severity, sayer(rule, message)(words, value ?? 0), { person, value, limit: bound });
}

/** What other rules add to a broken limit. */
function factsOf(active: ActiveLimit, scene: Scene, explaining: readonly Rule[]): readonly RelatedFact[] | undefined {
  let facts: RelatedFact[] | undefined;
  for (const rule of explaining) {
    const remark = rule.explain?.(scene, active);
    if (!remark) continue;
    const message = sayer(rule, remark.message)(remark.arguments, remark.value ?? 0);
    (facts ??= []).push({ rule: rule.id, message });
  }
  return facts;
}

function sayer(rule: Rule, message: string): Rule['messages'][string] {
  const say = rule.messages[message];
  if (!say) throw new Error(`Rule ${rule.id} has no message ${message}.`);
  return say;
}

function failureOf(rule: Rule, error: unknown): Finding {
  const reason = (error instanceof Error ? error.message : String(error)).replace(/[\s.]+$/, '');
  return finding(rule.id, 'error', `This rule failed on this frame: ${reason}; please report it.`, NOTHING_MORE);
}

function findingOf(
  { rule, severity, limit }: ActiveLimit,
  { crop }: Scene,
  related: readonly RelatedFact[] | undefined,
): Finding {
  const say = sayer(rule, limit.message);
  const value = limit.measure && measured(limit.measure, crop);
  return finding(rule.id, severity, say(wordsOf(limit), value ?? 0), {
    person: limit.person,
    joint: limit.joint,
    edge: limit.edge,
    value,
    limit: limit.bound,
    possible: limit.possible ? true : undefined,
    related,
  });
}

/** What a message is made of: the limit's own words go before its place. */
function wordsOf(limit: Limit): MessageArguments {
  const { person, joint, edge } = limit;
  const words: Record<string, string | number> = {};
  if (person !== undefined) words['person'] = person;
  if (joint !== undefined) words['joint'] = joint;
  if (edge !== undefined) words['edge'] = edge;
  for (const name in limit.arguments) words[name] = limit.arguments[name]!;
  words['possible'] = limit.possible ? 1 : 0;
  return words;
}

const NOTHING_MORE = {};

/** Every finding is written the same way, whatever it leaves out: copies of it are then ten times faster. */
function finding(
  rule: string,
  severity: Severity,
  message: string,
  { person, joint, edge, value, limit, possible, related }: Omit<Finding, 'rule' | 'severity' | 'message'>,
): Finding {
  return { rule, severity, message, person, joint, edge, value, limit, possible, related };
}

function measured(measure: NonNullable<Limit['measure']>, edges: Edges): number {
  const per = measure.per === 'short-side' ? shortSideOf(edges) : valueOf(measure.per, edges);
  return per === 0 ? 0 : Math.round((valueOf(measure.of, edges) / per) * 1000) / 10;
}
