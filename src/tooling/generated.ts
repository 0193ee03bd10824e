import { INPUT_LIMITS } from '../input-limits.ts';
import { jsonSchema } from '../manifest/json-schema.ts';
import { RULES } from '../rules/index.ts';
import { withSettingsTable } from '../rules/settings-table.ts';
import { FILE_RULES, RULE_CATALOGUE } from '../session/file-rules.ts';
import { manifestPage } from './manifest-page.ts';

const RULES_START = '<!-- rules -->';
const RULES_END = '<!-- /rules -->';
const LIMITS_START = '<!-- limits -->';
const LIMITS_END = '<!-- /limits -->';

/**
 * Every file, or part of a file, that comes from the rules' data or the table of limits: path from the project's folder and whole text. Files
 * that must be there already and are not are left out.
 */
export function generatedFiles(read: (path: string) => string | undefined): [string, string][] {
  const pages = RULES.map((rule): [string, string | undefined] => {
    const path = `src/rules/${rule.id}/README.md`;
    const page = read(path);
    return [path, page === undefined ? undefined : withSettingsTable(page, rule)];
  });
  const readme = read('README.md');
  const security = read('docs/security.md');
  const all: [string, string | undefined][] = [
    ...pages,
    ['README.md', readme === undefined ? undefined : withTable(readme, RULES_START, RULES_END, rulesTable())],
    ['docs/security.md', security && withTable(security, LIMITS_START, LIMITS_END, limitsTable())],
    ['docs/manifest.md', manifestPage()],
    ['media/crops.schema.json', `${JSON.stringify(jsonSchema(RULE_CATALOGUE), null, 2)}\n`],
  ];
  return all.filter((file): file is [string, string] => file[1] !== undefined);
}

function withTable(page: string, startMark: string, endMark: string, table: string): string {
  const start = page.indexOf(startMark);
  const end = page.indexOf(endMark);
  if (start < 0 || end < start) return page;
  return `${page.slice(0, start)}${startMark}\n${table}\n${page.slice(end)}`;
}

function limitsTable(): string {
  const rows = Object.values(INPUT_LIMITS).map(
    ({ of, most, unit, beyond }) => `| ${of} | ${most.toLocaleString('en')} ${unit} | ${beyond} |`,
  );
  return ['| of | at most | beyond it |', '| --- | --- | --- |', ...rows].join('\n');
}

function rulesTable(): string {
  const rules = [
    ...RULES.map(({ id, summary, severity }) => ({ id, summary, severity, page: `src/rules/${id}/README.md` })),
    ...FILE_RULES.map(({ id, summary, severity }) => ({ id, summary, severity, page: `src/session/pages/${id}.md` })),
  ];
  const rows = rules.map(({ id, summary, severity, page }) => `| [\`${id}\`](${page}) | ${summary} | ${severity} |`);
  return ['| rule | what it sees | severity |', '| --- | --- | --- |', ...rows].join('\n');
}
