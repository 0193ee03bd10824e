import { expect, test } from 'vitest';
import { configure } from './configuration.ts';
import { RULES } from './index.ts';
import { activeLimits, checkScene } from './report.ts';
import type { Rule } from './rule.ts';
import { scene } from './testing/scenes.ts';
import { standing } from '../people/testing/standing.ts';

const KNEES = scene({ people: [standing()], top: 1100, bottom: 4424 });

const failing: Rule = {
  ...RULES.find((rule) => rule.id === 'aspect')!,
  limits: () => {
    throw new Error('no such thing.');
  },
};

test('a rule that fails becomes one finding, and the others go on', () => {
  const rules = RULES.map((rule) => (rule.id === failing.id ? failing : rule));
  const findings = checkScene(KNEES, configure(), rules);
  expect(findings.filter(({ rule }) => rule === 'aspect')).toEqual([
    {
      rule: 'aspect',
      severity: 'error',
      message: 'This rule failed on this frame: no such thing; please report it.',
    },
  ]);
  expect(findings.map(({ rule }) => rule)).toContain('joint-cut');
  expect(activeLimits(KNEES, configure(), rules).map(({ rule }) => rule.id)).toContain('joint-cut');
});

test('a rule without the message that its limit names is a failure of that rule, not of the frame', () => {
  const wordless: Rule = { ...RULES.find((rule) => rule.id === 'joint-cut')!, messages: {} };
  expect(checkScene(KNEES, configure(), [wordless]).map(({ message }) => message)).toEqual([
    'This rule failed on this frame: Rule joint-cut has no message cut; please report it.',
  ]);
});

test('a rule that is off cannot fail', () => {
  expect(checkScene(KNEES, configure(new Map([['aspect', { severity: 'off' }]])), [failing])).toEqual([]);
});
