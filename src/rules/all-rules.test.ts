import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { edgesOf } from '../geometry/shapes.ts';
import { LENGTHS } from '../people/lengths.ts';
import { fixesFor } from '../search/index.ts';
import { FILE_RULES } from '../session/file-rules.ts';
import { drawExample, exampleOf } from '../tooling/draw-examples.mjs';
import { configure } from './configuration.ts';
import { identityOf } from './finding.ts';
import { RULES } from './index.ts';
import { activeLimits, checkScene, isBroken } from './report.ts';
import { SEVERITIES } from './rule.ts';
import type { Scene } from './scene.ts';
import { withCrop } from './scene.ts';
import { withSettingsTable } from './settings-table.ts';
import { HEADINGS, nameOf, sceneOfExample, sectionsOf, type Example } from './testing/page.ts';
import { expectGoodWords, numbersOf } from './testing/judge.ts';
import { only, scene } from './testing/scenes.ts';
import { standing } from '../people/testing/standing.ts';

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
    expect(said.map((finding) => finding.rule)).not.toContain(rule.id);
  });

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
    expect(sections.get('When to allow it')).toMatch(new RegExp(`allow: \\{ ${rule.id}(/[a-z_]+)?: ".+" \\}`));
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
    expect(example.expect.some((words) => words.split(' ')[0] === rule.id)).toBe(true);
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
      for (const { crop } of fixes.get(finding) ?? []) {
        const after = checkScene(withCrop(before, edgesOf(crop, before.photo)), ALL);
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
  for (const frame of walk()) {
    for (const { rule, limit } of activeLimits(frame, ALL)) {
      if (!isBroken(limit, frame.crop)) continue;
      const key = `${rule.id}/${limit.message}`;
      const said = checkScene(frame, ALL, [rule]).map(({ message }) => message);
      told.set(key, new Set([...(told.get(key) ?? []), ...said]));
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

/** Crops that walk over a figure from every edge, of everybody that a rule tells apart. */
function* walk(): Generator<Scene> {
  const robed = standing({ outlined: true, without: ['left_ankle', 'right_ankle', 'left_knee', 'right_knee'] });
  const groups = [[standing({ fingers: true, toes: true, outlined: true })], [robed], [standing({ confidence: 0.5 })]];
  for (const people of groups) {
    for (const composition of ['thirds', 'centred'] as const) {
      for (const top of [0, 1200, 1490, 1750]) {
        for (const bottom of [2100, 2600, 3200, 3836, 4424, 5500, 5600]) {
          for (const right of [2030, 2500, 2690, 4100]) {
            yield scene({ people, composition, shape: 1, top, bottom, right });
          }
        }
      }
    }
    const print = { inches: 80, bleed: { x: 0.02, y: 0.02 }, safe: { x: 0.02, y: 0.02 } };
    for (const right of [2030, 2690, 4000]) yield scene({ people, print, right });
    yield scene({ people, print, degrees: 5, left: 0, top: 0, right: 4000, bottom: 6000 });
    yield scene({ people, top: 2200 });
    yield scene({ people, left: 3500 });
    for (const askedLength of LENGTHS) yield scene({ people, askedLength, bottom: 3000 });
  }
}

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
