import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { edgesOf } from '../geometry/shapes.ts';
import { fixesFor } from '../search/index.ts';
import { FILE_RULES } from '../session/file-rules.ts';
import { drawExample, exampleOf } from '../tooling/draw-examples.mjs';
import { configure } from './configuration.ts';
import { identityOf } from './finding.ts';
import { RULES } from './index.ts';
import { activeLimits, checkScene, isBroken } from './report.ts';
import { SEVERITIES, type Rule } from './rule.ts';
import { turnedTo } from './scene.ts';
import { withSettingsTable } from './settings-table.ts';
import { HEADINGS, nameOf, sceneOfExample, sectionsOf, type Example } from './testing/page.ts';
import { expectGoodWords, numbersOf } from './testing/judge.ts';
import { only, scene } from './testing/scenes.ts';
import { walk } from './testing/walk.ts';

const ALL = configure();

describe.each(RULES)('$id', (rule) => {
  test('has the parts that every rule has', () => {
    expect(rule.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(rule.summary).toMatch(/^[A-Z].*\.$/);
    expect(SEVERITIES).toContain(rule.severity);
    expect(rule.unit).toBeTruthy();
    expect(rule.weight).toBeGreaterThan(0);
  });

  test('has settings whose own values lie in their range', () => {
    for (const [name, setting] of Object.entries(rule.settings)) {
      expect(name).toMatch(/^[a-z][A-Za-z]*$/);
      expect(setting.minimum).toBeLessThanOrEqual(setting.default);
      expect(setting.default).toBeLessThanOrEqual(setting.maximum);
      expect(setting.help).toMatch(/^[A-Z].*\.$/);
      expect(setting.unit).not.toBe('');
    }
  });

  test('runs at both ends of every setting', () => {
    const frame = sceneOfExample(exampleOfRule(rule.id), exampleOfRule(rule.id).crop);
    for (const [name, { minimum, maximum }] of Object.entries(rule.settings)) {
      for (const value of [minimum, maximum]) {
        for (const limit of activeLimits(frame, only(rule.id, { settings: { [name]: value } }))) {
          expect(numbersOf(limit.limit).every(Number.isFinite)).toBe(true);
        }
      }
    }
  });

  test('is silent when it is off', () => {
    const example = exampleOfRule(rule.id);
    const silenced = configure(new Map([[rule.id, { severity: 'off' }]]));
    const said = checkScene(sceneOfExample(example, example.crop), silenced);
    expect(said.map(nameOf).filter((name) => name.includes(rule.id))).toEqual([]);
  });

  if (!rule.explain)
    test('speaks with the severity that a session gives it', () => {
      const example = exampleOfRule(rule.id);
      for (const severity of ['error', 'warning', 'info'] as const) {
        const said = checkScene(sceneOfExample(example, example.crop), only(rule.id, { severity }));
        expect(new Set(said.map((finding) => finding.severity))).toEqual(new Set([severity]));
      }
    });
});

describe.each(RULES)('the page of $id', (rule) => {
  test('has a title, the summary and every heading in order', () => {
    const { title, summary, sections } = sectionsOf(pageOf(rule.id));
    expect(title).toBe(rule.id);
    expect(summary).toBe(rule.summary);
    expect([...sections.keys()]).toEqual(HEADINGS);
    for (const text of sections.values()) expect(text.length).toBeGreaterThan(40);
    expect(sections.get('Drawn example')).toContain('(example.svg)');
    // What a rule only explains is another rule's to allow.
    const allowed = rule.explain ? '[a-z-]+' : rule.id;
    expect(sections.get('When to allow it')).toMatch(new RegExp(`allow: \\{ ${allowed}(/[a-z_]+)?: ".+" \\}`));
  });

  test('has the table of its settings (else: npm run generate)', () => {
    const page = pageOf(rule.id);
    expect(page).toMatch(/<!-- settings -->\n[\s\S]+<!-- \/settings -->/);
    expect(page).toBe(withSettingsTable(page, rule));
  });

  test('has a drawing of its example (else: node src/tooling/draw-examples.mjs)', () => {
    const picture = readFileSync(new URL(`${rule.id}/example.svg`, import.meta.url), 'utf8');
    expect(picture).toBe(drawExample(rule.id, exampleOf(pageOf(rule.id))));
  });

  test('has an example of which the rules say exactly that, and a clean crop of which they say nothing', () => {
    const example = exampleOfRule(rule.id);
    expect(example.expect.some((words) => words.split(/:? /)[0] === rule.id)).toBe(true);
    expect(checkScene(sceneOfExample(example, example.crop), ALL).map(nameOf)).toEqual(example.expect);
    expect(checkScene(sceneOfExample(example, example.clean), ALL).map(nameOf)).toEqual([]);
  });
});

describe.each(RULES)('the fixes for the example of $id', (rule) => {
  const example = exampleOfRule(rule.id);
  const before = sceneOfExample(example, example.crop);
  const findings = checkScene(before, ALL);
  const fixes = fixesFor(before, ALL, findings);

  test('remove their finding and add none at warning or above', () => {
    const known = findings.map(identityOf);
    for (const finding of findings) {
      expect(fixes.get(finding), finding.message).not.toEqual([]);
      for (const { crop, straighten = before.degrees } of fixes.get(finding) ?? []) {
        const after = checkScene(turnedTo(before, straighten, edgesOf(crop, before.photo)), ALL);
        expect(after.map(identityOf)).not.toContain(identityOf(finding));
        const added = after.filter((other) => other.severity !== 'info' && !known.includes(identityOf(other)));
        expect(added).toEqual([]);
      }
    }
  });
});

describe.each(FILE_RULES)('the page of $id', (rule) => {
  test('has a title, its severity and every heading in order', () => {
    const page = readFileSync(new URL(`../session/pages/${rule.id}.md`, import.meta.url), 'utf8');
    const { title, summary, sections } = sectionsOf(page);
    expect(title).toBe(rule.id);
    expect(summary).toMatch(/^[A-Z].*\.$/);
    expect([...sections.keys()]).toEqual(['What it sees', 'What to do', 'When to allow it']);
    expect(sections.get('What it sees')).toContain(`Severity: \`${rule.severity}\``);
  });
});

test('no two rules share a name', () => {
  const ids = [...RULES, ...FILE_RULES].map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
});

describe('every message of every rule', () => {
  const told = new Map<string, Set<string>>();
  const tell = (rule: Rule, message: string, words: string): void => {
    const key = `${rule.id}/${message}`;
    told.set(key, (told.get(key) ?? new Set()).add(words));
  };
  for (const frame of walk()) {
    const broken = activeLimits(frame, ALL).filter(({ limit }) => isBroken(limit, frame.crop));
    for (const active of broken) {
      for (const { message } of checkScene(frame, ALL, [active.rule])) tell(active.rule, active.limit.message, message);
    }
    for (const rule of RULES) {
      const remarks = rule.check?.(frame, ALL.get(rule.id)!.settings, ALL) ?? [];
      const facts = broken.flatMap((active) => rule.explain?.(frame, active) ?? []);
      for (const { message, arguments: words, value = 0, person = 1 } of [...remarks, ...facts]) {
        tell(rule, message, rule.messages[message]!({ person, ...words }, value));
      }
    }
  }

  test.each(RULES.flatMap(({ id, messages }) => Object.keys(messages).map((message) => `${id}/${message}`)))(
    '%s can be said, in full sentences',
    (key) => {
      expect(told.get(key)?.size ?? 0).toBeGreaterThan(0);
      for (const message of told.get(key) ?? []) expectGoodWords(message);
    },
  );
});

test('with nobody in the frame only the crop itself is spoken of', () => {
  const empty = scene({ people: [], composition: 'thirds', shape: 1, right: 3000, bottom: 6100 });
  expect(new Set(checkScene(empty, ALL).map(({ rule }) => rule))).toEqual(new Set(['aspect', 'outside-photo']));
});

function pageOf(id: string): string {
  return readFileSync(new URL(`${id}/README.md`, import.meta.url), 'utf8');
}

function exampleOfRule(id: string): Example {
  return exampleOf(pageOf(id)) as Example;
}
