import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { RULE_CATALOGUE } from '../../src/session/file-rules.ts';
import { checkJson, digestsIn, folderWith, selvedge } from './workspace.ts';

const SAMPLES = join(import.meta.dirname, '../../sample-workspace');

async function rulesIn(session: string): Promise<string[]> {
  const { report } = await checkJson(join(SAMPLES, session, 'crops.yaml'));
  const [manifest] = report.manifests;
  const found = [...manifest!.findings, ...manifest!.frames.flatMap(({ findings }) => findings)];
  return found.flatMap(({ rule, related = [] }) => [rule, ...related.map((fact) => fact.rule)]);
}

test('the sample sessions show every rule at least once', async () => {
  const shown = new Set([...(await rulesIn('harbour')), ...(await rulesIn('troubled'))]);
  expect(RULE_CATALOGUE.map(({ id }) => id).filter((id) => !shown.has(id))).toEqual([]);
});

test.each(['harbour', 'portfolio'])('%s: fixed, checked clean, fixed again without a change', async (session) => {
  const folder = folderWith({});
  cpSync(join(SAMPLES, session), folder, { recursive: true });
  const path = join(folder, 'crops.yaml');
  const photos = digestsIn(folder, /\.jpg$/);
  expect((await selvedge('check', path)).code).toBe(1);
  await selvedge('fix', path);
  await selvedge('fix', '--any-length', path);
  const fixed = digestsIn(folder, /\.yaml$/);
  expect(await selvedge('check', path)).toMatchObject({ code: 0 });
  expect((await selvedge('fix', '--any-length', path)).code).toBe(0);
  expect(digestsIn(folder, /\.yaml$/)).toEqual(fixed);
  expect(digestsIn(folder, /\.jpg$/)).toEqual(photos);
});
