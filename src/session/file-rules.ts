import type { RuleDescription } from '../manifest/schema-kinds.ts';
import type { Configuration, GivenConfiguration } from '../rules/configuration.ts';
import { configure } from '../rules/configuration.ts';
import { RULES } from '../rules/index.ts';
import type { Severity, SeveritySetting } from '../rules/rule.ts';
import type { Manifest } from '../manifest/manifest.ts';

/** A rule that needs files, the manifest's text or more than one frame; its findings come from this room. */
export interface FileRule extends RuleDescription {
  readonly id: FileRuleId;
  readonly summary: string;
  readonly severity: Severity;
}

export type FileRuleId = 'manifest' | 'photo-missing' | 'not-measured' | 'stale-measure' | 'unused-allow';

export const FILE_RULES: readonly FileRule[] = [
  { id: 'manifest', severity: 'error', summary: 'The manifest or the people file has broken text or values.' },
  { id: 'photo-missing', severity: 'error', summary: 'The photo is not there, or is not a picture.' },
  { id: 'not-measured', severity: 'warning', summary: 'Nobody has measured the people of this photo yet.' },
  { id: 'stale-measure', severity: 'warning', summary: 'The photo has changed since its people were measured.' },
  { id: 'unused-allow', severity: 'info', summary: 'An allow that matches no finding.' },
];

/** Every rule that a manifest may set and a command may name. */
export const RULE_CATALOGUE: readonly RuleDescription[] = [...RULES, ...FILE_RULES];

/** How severe each rule is in this session. */
export interface SessionConfiguration {
  readonly crops: Configuration;
  readonly files: ReadonlyMap<string, SeveritySetting>;
}

export function configurationOf(manifest: Manifest): SessionConfiguration {
  const given = new Map<string, GivenConfiguration>();
  for (const [id, rule] of manifest.rules) {
    given.set(id, {
      ...(rule.severity && { severity: rule.severity.value }),
      settings: Object.fromEntries([...rule.settings].map(([name, setting]) => [name, setting.value])),
    });
  }
  const files = FILE_RULES.map((rule) => [rule.id, given.get(rule.id)?.severity ?? rule.severity] as const);
  return { crops: configure(given), files: new Map(files) };
}
