import { jsonSchema } from '../manifest/json-schema.ts';
import { RULES } from '../rules/index.ts';
import { withSettingsTable } from '../rules/settings-table.ts';
import { FILE_RULES, RULE_CATALOGUE } from '../session/file-rules.ts';

const RULES_START = '<!-- rules -->';
const RULES_END = '<!-- /rules -->';

/**
 * Every file, or part of a file, that comes from the rules' data: path from the project's folder and whole text. Files
 * that must be there already and are not are left out.
 */
export function generatedFiles(read: (path: string) => string | undefined): [string, string][] {
  const pages = RULES.map((rule): [string, string | undefined] => {
    const path = `src/rules/${rule.id}/README.md`;
    const page = read(path);
    return [path, page === undefined ? undefined : withSettingsTable(page, rule)];
  });
  const readme = read('README.md');
  const all: [string, string | undefined][] = [
    ...pages,
    ['README.md', readme === undefined ? undefined : withRulesTable(readme)],
    ['media/crops.schema.json', `${JSON.stringify(jsonSchema(RULE_CATALOGUE), null, 2)}\n`],
  ];
  return all.filter((file): file is [string, string] => file[1] !== undefined);
}

function withRulesTable(readme: string): string {
  const start = readme.indexOf(RULES_START);
  const end = readme.indexOf(RULES_END);
  if (start < 0 || end < start) return readme;
  return `${readme.slice(0, start)}${RULES_START}\n${rulesTable()}\n${readme.slice(end)}`;
}

function rulesTable(): string {
  const rules = [
    ...RULES.map(({ id, summary, severity }) => ({ id, summary, severity, page: `src/rules/${id}/README.md` })),
    ...FILE_RULES.map(({ id, summary, severity }) => ({ id, summary, severity, page: `src/session/pages/${id}.md` })),
  ];
  const rows = rules.map(({ id, summary, severity, page }) => `| [\`${id}\`](${page}) | ${summary} | ${severity} |`);
  return ['| rule | what it sees | severity |', '| --- | --- | --- |', ...rows].join('\n');
}
