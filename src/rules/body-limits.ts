import type { Figure } from '../people/figure.ts';
import type { RuleConfiguration } from './configuration.ts';
import type { Limit, Rule } from './rule.ts';

interface Known {
  readonly own: RuleConfiguration;
  readonly limits: readonly Limit[];
}

const known = new WeakMap<Figure, Map<Rule, Known>>();

/**
 * What the rule asks for the sake of this body. Kept with the figure: while a crop moves, in a search or under a hand,
 * the same is asked again and again.
 */
export function bodyLimitsOf(rule: Rule, figure: Figure, own: RuleConfiguration): readonly Limit[] {
  if (!rule.bodyLimits) return [];
  let ofFigure = known.get(figure);
  if (!ofFigure) known.set(figure, (ofFigure = new Map<Rule, Known>()));
  const last = ofFigure.get(rule);
  if (last?.own === own) return last.limits;
  const limits = rule.bodyLimits(figure, own.settings);
  ofFigure.set(rule, { own, limits });
  return limits;
}
