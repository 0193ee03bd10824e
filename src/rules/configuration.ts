import { RULES } from './index.ts';
import type { SettingValues, SeveritySetting } from './rule.ts';

/** How one rule runs in one session. */
export interface RuleConfiguration {
  readonly severity: SeveritySetting;
  readonly settings: SettingValues;
}

/** By rule id. */
export type Configuration = ReadonlyMap<string, RuleConfiguration>;

/** What a manifest says of a rule; what it leaves out stays as the rule has it. */
export interface GivenConfiguration {
  readonly severity?: SeveritySetting;
  readonly settings?: Readonly<Record<string, number>>;
}

/** Every rule's severity and settings: its own, with what the manifest gives put over them. */
export function configure(given: ReadonlyMap<string, GivenConfiguration> = new Map()): Configuration {
  return new Map(
    RULES.map((rule) => {
      const own = given.get(rule.id);
      const settings = Object.fromEntries(
        Object.entries(rule.settings).map(([name, schema]) => [name, own?.settings?.[name] ?? schema.default]),
      );
      return [rule.id, { severity: own?.severity ?? rule.severity, settings }];
    }),
  );
}
