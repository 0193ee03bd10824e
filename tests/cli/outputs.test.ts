import { describe, expect, test } from 'vitest';
import { checkSession } from '../../src/session/check.ts';
import { openSessionText } from '../../src/session/session.ts';
import { checkJson, CLEAN, KNEES, measuredSession, selvedge } from './workspace.ts';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const TOP = 'selvedge: 1\naspect: free\ncompose: free\n';

function manifest(deliver: string, frame: string): string {
  return measuredSession(`${TOP}deliver:\n${deliver}frames:\n  - photo: a.jpg\n${frame}`);
}

async function findings(folder: string): Promise<readonly Readonly<Record<string, unknown>>[]> {
  const { report } = await checkJson(join(folder, 'crops.yaml'));
  return report.manifests[0]!.frames[0]!.findings;
}

describe('crops of outputs', () => {
  test('a clean main crop has a clean crop of other shapes near it: nothing is said', async () => {
    const deliver = ['"2:3"', '"4:5"'].map((shape, index) => `  o${index}: { aspect: ${shape} }\n`).join('');
    expect(await findings(manifest(deliver, `    crop: ${CLEAN}\n`))).toEqual([]);
  });

  test('where no crop breaks nothing, the one that breaks least is taken', async () => {
    const path = join(import.meta.dirname, '../../sample-workspace/harbour/crops.yaml');
    const cover = '  cover: { aspect: "1:1", long: 200mm, bleed: 20mm, safe: 5mm }\n';
    const text = readFileSync(path, 'utf8').replace('deliver:\n', `deliver:\n${cover}`);
    const session = await openSessionText(path, text);
    const { frames } = await checkSession(session);
    const { outputs } = frames.find(({ frame }) => frame.name === 'studio-11.jpg')!;
    const pressing = outputs!.get('cover')!.findings.filter(({ severity }) => severity !== 'info');
    expect(pressing.map(({ rule }) => rule)).toEqual(['print-bleed']);
  });

  test('a crop that shows another length than the main one is told as a hint, unless somebody wrote it or allows it', async () => {
    const square = '  square: { aspect: "1:1", long: 900px }\n';
    // The figure's whole height does not fit into a square of this photo.
    const said = await findings(manifest(square, `    crop: ${CLEAN}\n`));
    expect(said).toMatchObject([{ rule: 'length', severity: 'info', output: 'square', person: 1, line: 7 }]);
    expect(said[0]!['message']).toBe(
      'Output square: This is three-quarter length; the main crop is full length. Write a crop under the frame’s deliver where you want another length.',
    );
    const own = `    crop: ${CLEAN}\n    deliver: { square: { x: 0.1, y: 0.15, w: 0.8, h: 0.5333 } }\n`;
    expect((await findings(manifest(square, own))).filter(({ rule }) => rule === 'length')).toEqual([]);
    const allowed = await findings(manifest(square, `    crop: ${CLEAN}\n    allow: { length: "tight is fine" }\n`));
    expect(allowed).toMatchObject([{ rule: 'length', allowed: 'tight is fine' }]);
    const off = manifest(`${square}rules: { length: off }\n`, `    crop: ${CLEAN}\n`);
    expect(await findings(off)).toEqual([]);
  });

  test.each([
    [
      'a paper',
      'paper: A3, ppi: 1200, format: webp',
      /^Output wall: The file would be \d+ × \d+ pixels, and webp holds 16383 along a side/,
    ],
    ['a side', 'aspect: free, long: 20000px, format: webp', /webp holds 16383 along a side/],
    [
      'two sides of a shape',
      'aspect: "1:1", short: 60000px',
      /The file would have 3600 million pixels; \d+ million are the most/,
    ],
  ])('a file that can never be written is told before it is rendered: %s', async (_, output, message) => {
    const folder = manifest(`  wall: { ${output} }\n`, `    crop: ${CLEAN}\n`);
    const { report } = await checkJson(join(folder, 'crops.yaml'));
    const said = report.manifests[0]!.findings.filter(({ rule }) => rule === 'manifest');
    expect(said).toMatchObject([{ rule: 'manifest', severity: 'error', line: 5 }]);
    expect(said[0]!['message']).toMatch(message);
  });

  test('a file that only some crops make too large is no fault of the output', async () => {
    const folder = manifest('  wall: { aspect: free, long: 60000px, format: tiff }\n', `    crop: ${CLEAN}\n`);
    const { report } = await checkJson(join(folder, 'crops.yaml'));
    expect(report.manifests[0]!.findings.filter(({ rule }) => rule === 'manifest')).toEqual([]);
  });

  test('an output is held as it says, or else as the crop is', async () => {
    const frame = `    crop: ${CLEAN}\n`;
    const own = `${frame}    deliver: { feed: { x: 0.1, y: 0.1, w: 0.8, h: 0.6667 } }\n`;
    const feed = (orientation: string): string => `  feed: { aspect: "4:5"${orientation} }\n`;
    const said = async (deliver: string, entry: string): Promise<unknown[]> =>
      (await findings(manifest(deliver, entry))).filter(({ rule }) => rule === 'aspect');
    expect(await said(feed(', orientation: upright'), frame)).toEqual([]);
    // 3200 × 4000 pixels: upright.
    expect(await said(feed(', orientation: upright'), own)).toEqual([]);
    expect(await said(feed(', orientation: lying'), own)).toMatchObject([{ output: 'feed', severity: 'warning' }]);
    expect(await said(feed(''), own)).toEqual([]);
  });

  test('its own crop is judged where it is written, with the output’s name', async () => {
    const own = `    crop: ${CLEAN}\n    deliver: { tall: ${KNEES} }\n`;
    const said = await findings(manifest('  tall: { aspect: free }\n', own));
    expect(said.map(({ rule, output, line }) => [rule, output, line])).toContainEqual(['joint-cut', 'tall', 9]);
    expect(said[0]!['message']).toMatch(/^Output tall: /);
  });

  test('an own crop of another shape is told', async () => {
    const own = `    crop: ${CLEAN}\n    deliver: { square: ${CLEAN} }\n`;
    const said = await findings(manifest('  square: { aspect: "1:1" }\n', own));
    expect(said).toMatchObject([{ rule: 'aspect', output: 'square', severity: 'warning', line: 9 }]);
  });

  test('what the main crop has too is said once', async () => {
    const said = await findings(manifest('  same: { aspect: free, long: 2000px }\n', `    crop: ${KNEES}\n`));
    expect(said.length).toBeGreaterThan(0);
    expect(said.filter(({ output }) => output !== undefined)).toEqual([]);
  });

  test('too few pixels for the paper, and a photo that ends inside the bleed', async () => {
    const own = `    crop: ${CLEAN}\n    deliver: { wall: { x: 0, y: 0, w: 1, h: 1 } }\n`;
    const said = await findings(manifest('  wall: { aspect: original, long: 150cm, bleed: 5mm }\n', own));
    expect(said.map(({ rule }) => rule)).toContain('print-bleed');
    const small = await findings(manifest('  wall: { aspect: original, long: 300cm }\n', `    crop: ${CLEAN}\n`));
    expect(small).toMatchObject([{ rule: 'print-resolution', output: 'wall', limit: 90 }]);
  });

  test('an allow covers outputs, and is used by them alone', async () => {
    const frame = `    crop: ${CLEAN}\n    allow: { print-resolution: "printed on canvas" }\n`;
    const said = await findings(manifest('  wall: { aspect: original, long: 300cm }\n', frame));
    expect(said).toMatchObject([{ rule: 'print-resolution', allowed: 'printed on canvas' }]);
  });

  test('a final frame has only hints', async () => {
    const frame = `    crop: ${CLEAN}\n    final: true\n`;
    const said = await findings(manifest('  wall: { aspect: original, long: 300cm }\n', frame));
    expect(said).toMatchObject([{ rule: 'print-resolution', severity: 'info' }]);
  });

  test('fix leaves the main crop alone for the sake of an output, and says what is left', async () => {
    const folder = manifest('  wall: { aspect: original, long: 300cm }\n', `    crop: ${CLEAN}\n`);
    const before = readFileSync(join(folder, 'crops.yaml'), 'utf8');
    const { code, out } = await selvedge('fix', join(folder, 'crops.yaml'));
    expect(code).toBe(1);
    expect(out).toContain('print-resolution');
    expect(readFileSync(join(folder, 'crops.yaml'), 'utf8')).toBe(before);
  });

  // The fix brings the lower edge up: fewer pixels for the same wall.
  test.each([
    ['that was not there before', '90cm', 0],
    ['in place of what was found about the old one', '100cm', 1],
  ])('fix lists what a check finds about the outputs of its new crop, %s', async (_, long, count) => {
    const ofOutputs = async (): Promise<string[]> =>
      (await findings(folder)).filter(({ output }) => output !== undefined).map(({ message }) => String(message));
    const folder = manifest(`  wall: { aspect: free, long: ${long}, bleed: 10mm }\n`, `    crop: ${KNEES}\n`);
    const path = join(folder, 'crops.yaml');
    const before = await ofOutputs();
    expect(before).toHaveLength(count);
    const dry = await selvedge('fix', path, '--dry-run', '--in-full');
    const { code, out } = await selvedge('fix', path, '--in-full');
    const [after, ...others] = await ofOutputs();
    expect(others).toEqual([]);
    expect(code).toBe(1);
    for (const said of [out, dry.out]) {
      expect(said).toContain(after);
      for (const gone of before) expect(said).not.toContain(gone);
    }
  });
});
