import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { roundCrop } from '../../src/geometry/crop.ts';
import { frameForMat } from '../../src/editor/mat-frame.ts';
import { identityOf } from '../../src/rules/finding.ts';
import { bestFixesOf } from '../../src/panel/mat/best-fixes.ts';
import { FrameOnMat } from '../../src/panel/mat/frame-on-mat.ts';
import { offeredLengths } from '../../src/panel/mat/ladder-rungs.ts';
import { fixesOfFrame } from '../../src/session/frame-fixes.ts';
import { isAboutCrop } from '../../src/session/asked.ts';
import { cutFor } from '../../src/session/cut-for.ts';
import { checkSession } from '../../src/session/check.ts';
import { measuredScene, withoutLines } from '../../src/session/frame-scene.ts';
import { lengthSteps } from '../../src/session/length-step.ts';
import { outputCrop } from '../../src/session/outputs/output-crop.ts';
import { openSession, openSessionText } from '../../src/session/session.ts';
import { checkJson } from './workspace.ts';

const SAMPLES = join(import.meta.dirname, '../../sample-workspace');

const NO_DETAILS = {
  revision: 1,
  size: undefined,
  state: undefined,
  saved: undefined,
  canTakeBack: false,
  output: undefined,
};

/** What the editor sends to the mat, as it arrives there. */
function onMat(...asked: Parameters<typeof frameForMat>): FrameOnMat {
  const sent = structuredClone(frameForMat(...asked));
  if (sent.kind !== 'frame') throw new Error('The frame cannot be shown.');
  return new FrameOnMat(sent.frame);
}

describe.each(['harbour', 'portfolio'])('in %s', (name) => {
  const path = join(SAMPLES, name, 'crops.yaml');

  test('the mat’s lengths are the crops that the editor’s actions write', async () => {
    const session = await openSession(path);
    const { frames } = await checkSession(session);
    let compared = 0;
    for (const check of frames) {
      const mat = onMat(session, check, NO_DETAILS);
      const { others } = lengthSteps(session, check.frame);
      const rungs = new Map(offeredLengths(mat, false).map(({ length, crop }) => [length, crop]));
      for (const { length, crop } of others) {
        expect(crop).toEqual(rungs.get(length));
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(10);
  });

  test('the mat’s fixes are those that the editor’s lamp offers first', async () => {
    const session = await openSession(path);
    const { frames } = await checkSession(session);
    let compared = 0;
    for (const check of frames.filter(({ frame }) => frame.final?.value !== true)) {
      const fixes = bestFixesOf(onMat(session, check, NO_DETAILS));
      for (const finding of fixesOfFrame(session, check).findings) {
        if (!finding.fixes) continue;
        expect(fixes.get(identityOf(finding))).toEqual(finding.fixes[0]);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(3);
  });

  test('a length says beforehand what is found once it is chosen, and keeps the shape where that is asked', async () => {
    const session = await openSession(path);
    const { frames } = await checkSession(session);
    for (const check of frames) {
      const mat = onMat(session, check, NO_DETAILS);
      for (const { crop, findings, edges, isOtherShape } of offeredLengths(mat, true)) {
        const after = onMat(session, check, NO_DETAILS);
        after.take(crop, after.scene.degrees);
        const ofMain = after.findings().filter(({ output }) => output === undefined);
        const pressing = ofMain.filter((finding) => isAboutCrop(finding) && finding.severity !== 'info');
        expect(findings.map(identityOf)).toEqual(pressing.map((finding) => identityOf(finding)));
        const shape = (edges.right - edges.left) / (edges.bottom - edges.top);
        expect(isOtherShape).toBe(Math.abs(shape / mat.keptShape - 1) > 0.005);
      }
    }
  });

  test('the mat finds what the command line finds', async () => {
    const session = await openSession(path);
    const { frames } = await checkSession(session);
    const { report } = await checkJson(path);
    const byCommandLine = report.manifests[0]!.frames;
    for (const [index, check] of frames.entries()) {
      const found = byCommandLine[index]!.findings.filter(({ allowed, output, rule }) => allowed === undefined && output === undefined && isAboutCrop({ rule, severity: 'info', message: '' })); // prettier-ignore
      const told = (finding: { rule: string; severity: string; message: string }) =>
        `${finding.severity} ${finding.rule}: ${finding.message}`;
      const ofMain = onMat(session, check, NO_DETAILS).findings().filter(({ output }) => output === undefined); // prettier-ignore
      expect(ofMain.filter(isAboutCrop).map(told).sort()).toEqual(found.map(told).sort());
    }
  });
});

test('the mat cuts for an output as it is rendered, and finds there what is found of that crop', async () => {
  const path = join(SAMPLES, 'harbour', 'crops.yaml');
  const text = readFileSync(path, 'utf8').replace(
    'aspect: "3:4", long: 13cm',
    'aspect: "2:1", long: 60cm, bleed: 3mm, safe: 3cm',
  );
  const session = await openSessionText(path, text);
  const { frames } = await checkSession(session);
  let found = 0;
  for (const check of frames) {
    const scene = measuredScene(session, check.frame)!;
    for (const output of session.manifest.deliver.values()) {
      const cut = outputCrop(withoutLines(scene), session.configuration.crops, check.frame, output);
      const mat = onMat(session, check, { ...NO_DETAILS, output });
      if ('reason' in cut) {
        expect(mat.frame.whyNone).toBe(cut.reason);
        continue;
      }
      expect(mat.written).toEqual(roundCrop(cut.crop));
      const onSheet = cutFor(check, output.id);
      expect(onSheet.crop).toEqual(cut.crop);
      const isOfThis = (finding: { output?: string }): boolean => finding.output === output.id;
      const there = new Set(mat.findings().map(identityOf));
      const told = check.findings.filter((finding) => isOfThis(finding) && finding.severity !== 'info');
      for (const finding of told) expect(there).toContain(identityOf(finding));
      // What only the photo's own lines say is told of main crops alone.
      const seen = onSheet.findings.filter((finding) => isAboutCrop(finding) && !['tilt', 'horizon'].includes(finding.rule)); // prettier-ignore
      const judged = mat.findings().filter(isAboutCrop);
      expect(new Set(seen.map(identityOf))).toEqual(new Set(judged.map(identityOf)));
      found += told.length;
      const beside = onMat(session, check, NO_DETAILS).findings().filter(isOfThis).map(({ message }) => message); // prettier-ignore
      expect(beside).toEqual(expect.arrayContaining(told.filter(({ allowed }) => allowed === undefined).map(({ message }) => message))); // prettier-ignore
    }
  }
  expect(found).toBeGreaterThan(5);
});
