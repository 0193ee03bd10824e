import { describe, expect, test } from 'vitest';
import { generatedScene } from '../../tests/scenes/generate.ts';
import { effectiveEdges } from '../geometry/crop.ts';
import { configure } from '../rules/configuration.ts';
import { identityOf, type Finding } from '../rules/finding.ts';
import { checkScene } from '../rules/report.ts';
import { sceneOf, withCrop, type Scene } from '../rules/scene.ts';
import { FIX_KINDS, fixesFor } from './fixes.ts';

const CONFIGURATION = configure();
const SEEDS = Array.from({ length: 25 }, (_, index) => 2000 + index);

function pressing(findings: readonly Finding[]): string[] {
  return findings.filter(({ severity }) => severity !== 'info').map(identityOf);
}

function eachFinding(check: (scene: Scene, finding: Finding, before: readonly Finding[], seed: number) => void): void {
  for (const seed of SEEDS) {
    const scene = sceneOf(generatedScene(seed));
    const before = checkScene(scene, CONFIGURATION);
    for (const finding of before) check(scene, finding, before, seed);
  }
}

describe('fixes', () => {
  test('each removes its finding and adds none at warning or above', () => {
    let count = 0;
    eachFinding((scene, finding, before, seed) => {
      const fixes = fixesFor(scene, CONFIGURATION, [finding]).get(finding)!;
      expect(fixes.length).toBeLessThanOrEqual(FIX_KINDS.length);
      expect(new Set(fixes.map(({ kind }) => kind)).size).toBe(fixes.length);
      for (const fix of fixes) {
        count++;
        const edges = effectiveEdges(fix.crop, scene.photo, scene.degrees);
        const after = checkScene(withCrop(scene, edges), CONFIGURATION);
        const context = `seed ${seed}, ${identityOf(finding)}, ${fix.title}`;
        expect(after.map(identityOf), context).not.toContain(identityOf(finding));
        const known = pressing(before);
        expect(
          pressing(after).filter((identity) => !known.includes(identity)),
          context,
        ).toEqual([]);
      }
    });
    expect(count).toBeGreaterThan(100);
  });

  test('a tighter one lies inside the present crop', () => {
    let count = 0;
    eachFinding((scene, finding) => {
      const fix = fixesFor(scene, CONFIGURATION, [finding])
        .get(finding)!
        .find(({ kind }) => kind === 'tighter');
      if (!fix) return;
      count++;
      const edges = effectiveEdges(fix.crop, scene.photo, scene.degrees);
      expect(edges.left).toBeGreaterThanOrEqual(scene.crop.left - 1e-6);
      expect(edges.bottom).toBeLessThanOrEqual(scene.crop.bottom + 1e-6);
      expect(fix.title).toMatch(/^Come (in tighter: |up to )/);
    });
    expect(count).toBeGreaterThan(10);
  });

  test('a finding that the scene does not have gets none', () => {
    const scene = sceneOf(generatedScene(1));
    const finding: Finding = { rule: 'unused-allow', severity: 'info', message: 'x' };
    expect(fixesFor(scene, CONFIGURATION, [finding]).get(finding)).toEqual([]);
  });
});
