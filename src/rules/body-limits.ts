import { EDGE_NAMES } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import type { ActiveLimit } from './active-limit.ts';
import type { RuleConfiguration } from './configuration.ts';
import type { Rule, Severity } from './rule.ts';

interface Known {
  readonly own: RuleConfiguration;
  readonly limits: readonly ActiveLimit[];
}

const known = new WeakMap<Figure, Map<Rule, Known>>();

/**
 * What the rule asks for the sake of this body. Kept with the figure: while a crop moves, in a search or under a hand,
 * the same is asked again and again.
 */
export function bodyLimitsOf(
  rule: Rule,
  severity: Severity,
  figure: Figure,
  own: RuleConfiguration,
): readonly ActiveLimit[] {
  if (!rule.bodyLimits) return [];
  let ofFigure = known.get(figure);
  if (!ofFigure) known.set(figure, (ofFigure = new Map<Rule, Known>()));
  const last = ofFigure.get(rule);
  if (last?.own === own) return last.limits;
  const limits = rule.bodyLimits(figure, own.settings, EDGE_NAMES).map((limit) => ({ rule, severity, limit }));
  ofFigure.set(rule, { own, limits });
  return limits;
}
