import type { Rule, SeveritySetting } from '../../rules/rule.ts';
import { RULES } from '../../rules/index.ts';
import { settingsTable } from '../../rules/settings-table.ts';
import { FILE_RULES } from '../../session/file-rules.ts';

/** A rule as SARIF describes it (2.1.0, 3.49, reportingDescriptor). */
export interface RuleDescriptor {
  readonly id: string;
  readonly shortDescription: { readonly text: string };
  readonly help: { readonly text: string; readonly markdown: string };
  readonly defaultConfiguration: { readonly enabled: boolean; readonly level: SarifLevel };
}

export type SarifLevel = 'none' | 'note' | 'warning' | 'error';

/** Every rule of this version, with its help, from the rules' own data. */
export const RULE_DESCRIPTORS: readonly RuleDescriptor[] = [...RULES.map(ofCrop), ...FILE_RULES.map(ofFile)];

/** The place of each rule in `RULE_DESCRIPTORS`. */
export const RULE_PLACES: ReadonlyMap<string, number> = new Map(RULE_DESCRIPTORS.map(({ id }, place) => [id, place]));

/** A hint is a note there. */
export function levelOf(severity: SeveritySetting): SarifLevel {
  return ({ error: 'error', warning: 'warning', info: 'note', off: 'none' } as const)[severity];
}

function ofCrop(rule: Rule): RuleDescriptor {
  const { summary, unit } = rule;
  const settings = Object.entries(rule.settings).map(
    ([name, setting]) => `${name}: ${setting.help} (${setting.default} ${setting.unit})`,
  );
  const measured = unit === undefined ? [] : [`Value and limit are given in ${unit}.`];
  return descriptor(rule, {
    text: [summary, ...measured, ...settings].join('\n'),
    markdown: [summary, ...measured, settingsTable(rule)].join('\n\n'),
  });
}

function ofFile(rule: (typeof FILE_RULES)[number]): RuleDescriptor {
  return descriptor(rule, { text: rule.summary, markdown: rule.summary });
}

function descriptor(
  { id, summary, severity }: { readonly id: string; readonly summary: string; readonly severity: SeveritySetting },
  help: RuleDescriptor['help'],
): RuleDescriptor {
  return {
    id,
    shortDescription: { text: summary },
    help,
    defaultConfiguration: { enabled: severity !== 'off', level: levelOf(severity) },
  };
}
