import type { Located, Output, RuleSettings, SeveritySetting } from './manifest.ts';
import type { ReadMap, ReadValue } from './read-value.ts';
import { entry } from './read-value.ts';

/** What `rules` says, by rule id; a severity alone stands for a map with nothing else. */
export function buildRules(read: Located<ReadMap> | undefined): ReadonlyMap<string, RuleSettings> {
  const rules = new Map<string, RuleSettings>();
  for (const [id, said] of read?.value.entries ?? []) {
    const { key, range } = said;
    if (typeof said.value === 'string') {
      rules.set(id, { key, range, severity: said as Located<SeveritySetting>, settings: new Map() });
      continue;
    }
    const map = said.value as ReadMap;
    const severity = entry<SeveritySetting>(map, 'severity');
    const settings = new Map([...map.entries].filter(([name]) => name !== 'severity')) as Map<string, Located<number>>;
    rules.set(id, { key, range, ...(severity && { severity }), settings });
  }
  return rules;
}

/** What `deliver` says, by output id. */
export function buildOutputs(read: Located<ReadMap> | undefined): ReadonlyMap<string, Output> {
  const outputs = new Map<string, Output>();
  for (const [id, { value, key, range }] of (read?.value.entries ?? []) as Iterable<[string, Located<ReadMap>]>) {
    const said = Object.fromEntries(value.entries) as Partial<Record<string, Located<ReadValue>>>;
    outputs.set(id, { ...(said as Omit<Output, 'id' | 'key' | 'range'>), id, key, range });
  }
  return outputs;
}
