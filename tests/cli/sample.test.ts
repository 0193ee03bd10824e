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

/** What rules about lines, looks and widths say in the sample session: of which frame, and whether a fix mends it. */
test.each([
  ['tilt', 'boardwalk-13.jpg', true],
  ['horizon', 'boardwalk-13.jpg', false],
  ['placement', 'boardwalk-13.jpg', true],
  ['look-room', 'boardwalk-02.jpg', true],
  ['edge-object', 'boardwalk-12.jpg', true],
  ['narrow-place', 'studio-03.jpg#2', true],
  ['straighten-cost', 'boardwalk-09.jpg#2', true],
])('%s is said of %s by check, and fix mends it or says why not', async (rule, name, isMended) => {
  const folder = folderWith({});
  cpSync(join(SAMPLES, 'harbour'), folder, { recursive: true });
  const path = join(folder, 'crops.yaml');
  const [photo, place = '1'] = name.split('#');
  const saidOf = async () => {
    const { report } = await checkJson('--rule', rule, path);
    const frames = report.manifests[0]!.frames.filter((frame) => frame.photo === photo);
    const { findings } = frames[Number(place) - 1]!;
    const own = findings.filter((finding) => finding.rule === rule);
    return [...own, ...findings.filter(({ related = [] }) => related.some((fact) => fact.rule === rule))];
  };
  const [finding] = await saidOf();
  expect(finding).toMatchObject({
    line: expect.any(Number) as number,
    message: expect.stringMatching(/\.$/) as string,
  });
  const fixed = await selvedge('fix', '--rule', rule, '--in-full', path);
  expect(fixed.code).toBe(isMended ? 0 : 1);
  expect(fixed.out).toContain(name);
  if (isMended) expect(await saidOf()).toEqual([]);
  else expect(fixed.out).toContain('because');
});
