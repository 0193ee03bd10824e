import { describe, expect, test } from 'vitest';
import { generatedScene } from '../../tests/scenes/generate.ts';
import { effectiveEdges } from '../geometry/crop.ts';
import { foundLength, headCutFrom } from '../people/length-spans.ts';
import { LENGTHS, rungOf } from '../people/lengths.ts';
import { configure } from '../rules/configuration.ts';
import type { Finding } from '../rules/finding.ts';
import { identityOf } from '../rules/finding.ts';
import { checkScene } from '../rules/report.ts';
import { sceneOf, withCrop, type Scene } from '../rules/scene.ts';
import { nearestCrop } from '../search/index.ts';
import { worseThan } from './no-worse.ts';
import { repair } from './repair.ts';

const CONFIGURATION = configure();
const SCENES = 120;

function pressing(scene: Scene): Finding[] {
  return checkScene(scene, CONFIGURATION).filter(({ severity }) => severity !== 'info');
}

/** A generated scene; every second one asks for a length. */
function sceneAt(seed: number): Scene {
  const askedLength = seed % 2 === 0 ? undefined : LENGTHS[(seed >> 1) % LENGTHS.length];
  return sceneOf({ ...generatedScene(3000 + seed), askedLength });
}

function repaired(scene: Scene, change: { rules?: readonly string[] } = {}) {
  const { rules } = change;
  return repair({ scene, configuration: CONFIGURATION, allow: [], rules, anyLength: false });
}

describe('a repair', () => {
  test('adds no error and no warning, and makes none worse', { timeout: 300_000 }, () => {
    let moved = 0;
    let clean = 0;
    for (let seed = 0; seed < SCENES; seed++) {
      const scene = sceneAt(seed);
      const before = pressing(scene);
      const { crop, remaining } = repaired(scene);
      if (!crop) {
        expect(remaining.map(identityOf), `seed ${seed} stays`).toEqual(before.map(identityOf));
        continue;
      }
      moved++;
      const after = withCrop(scene, effectiveEdges(crop, scene.photo, scene.degrees));
      const found = pressing(after);
      if (found.length === 0) clean++;
      expect(worseThan(before, found).map(identityOf), `seed ${seed}`).toEqual([]);
      const again = repaired(after);
      expect(again.crop ?? crop, `seed ${seed}, a second time`).toEqual(crop);
    }
    console.info(`repaired: ${moved} of ${SCENES}, clean ${clean}`);
    expect(clean).toBeGreaterThan(SCENES / 10);
    expect(moved).toBeGreaterThan(clean);
  });

  test(
    'keeps the length where a crop of it is clean, and gives up one at most while no face is cut',
    { timeout: 300_000 },
    () => {
      let closer = 0;
      for (let seed = 0; seed < SCENES; seed++) {
        const scene = sceneOf(generatedScene(3000 + seed));
        const { tallest } = scene;
        // Of a head that the photo cuts, every crop under the chest is a close-up.
        if (!tallest || headCutFrom(tallest) < 1) continue;
        const { crop } = repaired(scene);
        if (!crop) continue;
        const present = foundLength(tallest, scene.crop);
        const steps = rungOf(foundLength(tallest, effectiveEdges(crop, scene.photo, scene.degrees))) - rungOf(present);
        if (steps <= 0) continue;
        closer++;
        if (pressing(scene).every(({ severity }) => severity !== 'error')) expect(steps, `seed ${seed}`).toBe(1);
        const kept = nearestCrop(scene, CONFIGURATION, { tightest: present });
        const after = kept && withCrop(scene, effectiveEdges(kept.crop, scene.photo, scene.degrees));
        expect(after === undefined || pressing(after).length > 0, `seed ${seed}`).toBe(true);
      }
      expect(closer).toBeGreaterThan(3);
    },
  );

  test('of one rule alone adds nothing of another', { timeout: 300_000 }, () => {
    for (let seed = 0; seed < SCENES / 2; seed++) {
      const scene = sceneAt(seed);
      const before = pressing(scene);
      const rule = before[0]?.rule;
      const { crop } = repaired(scene, { rules: rule === undefined ? [] : [rule] });
      if (!crop) continue;
      const found = pressing(withCrop(scene, effectiveEdges(crop, scene.photo, scene.degrees)));
      expect(worseThan(before, found).map(identityOf), `seed ${seed}, ${rule ?? ''}`).toEqual([]);
    }
  });
});
