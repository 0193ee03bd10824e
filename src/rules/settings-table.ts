import type { Rule } from './rule.ts';

/** The part of a page that is generated lies between these lines. */
export const SETTINGS_START = '<!-- settings -->';
export const SETTINGS_END = '<!-- /settings -->';

/** The settings of a rule as a Markdown table for its page, without the markers and without a line end behind. */
export function settingsTable(rule: Pick<Rule, 'severity' | 'settings'>): string {
  const severity = `Severity: \`${rule.severity}\` unless the manifest says otherwise.`;
  const settings = Object.entries(rule.settings);
  if (settings.length === 0) return `${severity} It has no settings of its own.`;
  const rows = settings.map(
    ([name, { default: value, unit, minimum, maximum, help }]) =>
      `| \`${name}\` | ${value} | ${unit} | ${minimum}–${maximum} | ${help} |`,
  );
  return [
    severity,
    '',
    '| name | default | unit | range | what it does |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

/** A page with its settings table put between the markers; unchanged when the markers are not there. */
export function withSettingsTable(page: string, rule: Pick<Rule, 'severity' | 'settings'>): string {
  const start = page.indexOf(SETTINGS_START);
  const end = page.indexOf(SETTINGS_END);
  if (start < 0 || end < start) return page;
  return `${page.slice(0, start)}${SETTINGS_START}\n${settingsTable(rule)}\n${page.slice(end)}`;
}
