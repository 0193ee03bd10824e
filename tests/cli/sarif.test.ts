import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import { PROJECT_FOLDER } from '../truth/support/project.ts';
import { checkJson, CLEAN, HEAD, KNEES, measuredSession, selvedge } from './workspace.ts';

/*
 * Outside truth: the published JSON Schema of SARIF 2.1.0 (tests/fixtures/sarif/README.md). It is written in draft-04, of
 * which it uses nothing that later drafts read otherwise but the name of its id.
 */
const schemaFile = join(PROJECT_FOLDER, 'tests/fixtures/sarif/sarif-2.1.0-rtm.5.json');
const { definitions, properties, required, type } = JSON.parse(readFileSync(schemaFile, 'utf8')) as Record<
  string,
  unknown
>;
const schema = { definitions, properties, required, type, additionalProperties: false };
const isSarif = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false, allErrors: true }).compile(
  schema,
);

interface Region {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
}

interface Result {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: string;
  readonly message: { readonly text: string };
  readonly locations: readonly [
    { readonly physicalLocation: { readonly artifactLocation: { readonly uri: string }; readonly region: Region } },
  ];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly suppressions?: readonly { readonly justification: string }[];
  readonly fixes?: readonly {
    readonly artifactChanges: readonly [
      {
        readonly replacements: readonly {
          readonly deletedRegion: Region;
          readonly insertedContent: { readonly text: string };
        }[];
      },
    ];
  }[];
}

interface Log {
  readonly runs: readonly [
    {
      readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string }[] } };
      readonly automationDetails: { readonly id: string };
      readonly results: readonly Result[];
    },
  ];
}

async function sarif(...argv: string[]): Promise<{ code: number; log: Log }> {
  const { code, out } = await selvedge('check', '--format', 'sarif', ...argv);
  return { code, log: JSON.parse(out) as Log };
}

const TWO_FRAMES = `${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n  - photo: "b &c.jpg"\n    crop: ${KNEES}\n    allow: { joint-cut/left_knee: "as the client wants it" }\n`;
const PHOTOS = ['a.jpg', 'b &c.jpg'];

test('the log validates against the published schema, and the schema would see a mistake', async () => {
  const broken = TWO_FRAMES + '  - photo: gone.jpg\n    lenght: close-up\n  - phto: x\n';
  const { code, log } = await sarif(join(measuredSession(broken, PHOTOS), 'crops.yaml'));
  expect(code).toBe(1);
  expect(isSarif(log), JSON.stringify(isSarif.errors)).toBe(true);
  expect(isSarif({ ...log, version: '2.0.0' })).toBe(false);
  const [{ results }] = log.runs;
  expect(isSarif({ ...log, runs: [{ ...log.runs[0], results: [{ ...results[0], level: 'info' }] }] })).toBe(false);
});

test('each result stands where JSON says, with its rule, severity and suppression', async () => {
  const path = join(measuredSession(TWO_FRAMES, PHOTOS), 'crops.yaml');
  const { log } = await sarif(path);
  const { report } = await checkJson(path);
  const { results, tool } = log.runs[0];
  const found = report.manifests.flatMap(({ findings, frames }) => [
    ...findings,
    ...frames.flatMap((frame) => frame.findings),
  ]);
  const levels = { error: 'error', warning: 'warning', info: 'note' } as const;
  expect(
    results.map(({ ruleId, level, locations }) => ({ ruleId, level, ...locations[0].physicalLocation.region })),
  ).toEqual(
    found.map(({ rule, severity, line, column, endLine, endColumn }) => ({
      ruleId: rule,
      level: levels[severity as keyof typeof levels],
      startLine: line,
      startColumn: column,
      endLine,
      endColumn,
    })),
  );
  for (const { ruleId, ruleIndex } of results) expect(tool.driver.rules[ruleIndex]!.id).toBe(ruleId);
  const suppressed = results.filter(({ suppressions }) => suppressions !== undefined);
  expect(suppressed.map(({ suppressions }) => suppressions![0]!.justification)).toEqual(['as the client wants it']);
});

test('a fix, made in the text by its regions alone, removes its finding', async () => {
  const folder = measuredSession(TWO_FRAMES.replaceAll('\n', '\r\n'), PHOTOS);
  const path = join(folder, 'crops.yaml');
  const { log } = await sarif(path);
  const cut = log.runs[0].results.find(({ fixes }) => fixes !== undefined)!;
  writeFileSync(path, applied(readFileSync(path, 'utf8'), cut.fixes![0]!.artifactChanges[0].replacements));
  const after = await sarif(path);
  const print = cut.partialFingerprints['selvedgeFinding/v1'];
  expect(print).toMatch(/^a\.jpg: joint-cut 1 (left|right)_knee bottom$/);
  const left = after.log.runs[0].results.map(({ partialFingerprints }) => partialFingerprints['selvedgeFinding/v1']);
  expect(left).not.toContain(print);
  expect(left.filter((other) => other!.startsWith('a.jpg: joint-cut'))).toEqual([]);
});

/** Regions count lines and UTF-16 columns from 1 (SARIF 2.1.0, 3.30). */
function applied(
  text: string,
  replacements: readonly { readonly deletedRegion: Region; readonly insertedContent: { readonly text: string } }[],
): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
  const offset = (line: number, column: number): number => starts[line - 1]! + column - 1;
  const edits = replacements.map(({ deletedRegion: region, insertedContent }) => ({
    start: offset(region.startLine, region.startColumn),
    end: offset(region.endLine, region.endColumn),
    text: insertedContent.text,
  }));
  edits.sort((one, other) => other.start - one.start);
  return edits.reduce((now, edit) => now.slice(0, edit.start) + edit.text + now.slice(edit.end), text);
}

test('fingerprints stay while lines move, crops change and frames come in front, and no two are alike', async () => {
  const prints = async (manifest: string): Promise<string[]> => {
    const { log } = await sarif(join(measuredSession(manifest, [...PHOTOS, 'new.jpg']), 'crops.yaml'));
    const all = log.runs[0].results.map(({ partialFingerprints }) => partialFingerprints['selvedgeFinding/v1']!);
    expect(new Set(all).size).toBe(all.length);
    return all;
  };
  const before = await prints(TWO_FRAMES);
  const moved = TWO_FRAMES.replace('frames:\n', `# a remark\n\nframes:\n  - photo: new.jpg\n    crop: ${CLEAN}\n`);
  const after = await prints(moved.replaceAll('h: 0.5373', 'h: 0.5374'));
  expect(after).toEqual(expect.arrayContaining(before));
  const twice = await prints(`${HEAD}  - photo: x.jpg\n    colr: 1\n    colr2: 1\n  - phto: y\n  - phto: y\n`);
  expect(twice.length).toBeGreaterThan(3);
});

test('a path is a URI below the folder of the call, else a whole one; a shard names itself', async () => {
  const path = join(measuredSession(TWO_FRAMES, PHOTOS), 'crops.yaml');
  const { log } = await sarif('--shard', '2/2', path);
  expect(log.runs[0].results[0]!.locations[0].physicalLocation.artifactLocation.uri).toMatch(
    /^file:\/\/\/.*crops\.yaml$/,
  );
  expect(log.runs[0].automationDetails.id).toBe('selvedge/shard-2-of-2/');
  const inside = await sarif(join('sample-workspace', 'harbour'));
  expect(inside.log.runs[0].results[0]!.locations[0].physicalLocation.artifactLocation).toEqual({
    uri: 'sample-workspace/harbour/crops.yaml',
    uriBaseId: '%SRCROOT%',
  });
});
