import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { frameForMat } from '../../src/editor/mat-frame.ts';
import { FrameOnMat } from '../../src/panel/mat/frame-on-mat.ts';
import { ladder } from '../../src/search/index.ts';
import { isAboutCrop } from '../../src/session/asked.ts';
import { checkSession } from '../../src/session/check.ts';
import { lengthSteps } from '../../src/session/length-step.ts';
import { openSession } from '../../src/session/session.ts';
import { checkJson } from './workspace.ts';

const SAMPLES = join(import.meta.dirname, '../../sample-workspace');

const NO_DETAILS = { revision: 1, size: undefined, saved: undefined, canTakeBack: false };

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
      const rungs = new Map(
        ladder(mat.was, mat.configuration, { allow: mat.frame.allow }).map(({ length, answer }) => {
          mat.move(answer.edges, false);
          return [length, mat.written];
        }),
      );
      for (const { length, crop } of others) {
        expect(crop).toEqual(rungs.get(length));
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(10);
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
      expect(onMat(session, check, NO_DETAILS).findings().filter(isAboutCrop).map(told).sort()).toEqual(
        found.map(told).sort(),
      );
    }
  });
});
