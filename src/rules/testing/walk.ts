import { LENGTHS } from '../../people/lengths.ts';
import { standing } from '../../people/testing/standing.ts';
import type { Scene } from '../scene.ts';
import { skirted, turnedHead } from './figures.ts';
import { scene } from './scenes.ts';

/** Crops that walk over a figure from every edge, of everybody that a rule tells apart. */
export function* walk(): Generator<Scene> {
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
    for (const degrees of [-3, 2]) yield scene({ people, tilt: { degrees, confidence: 0.9 } });
    yield scene({
      people: [standing({ headTop: 1780 })],
      degrees: -3,
      top: 1350,
      left: 150,
      right: 3850,
      bottom: 5780,
    });
    for (const y of [0.2, 0.35, 0.5]) yield scene({ people, horizon: { y, confidence: 0.9 } });
    for (const askedLength of LENGTHS) yield scene({ people, askedLength, bottom: 3000 });
  }
  yield scene({ people: [turnedHead('left')], left: 1500 });
  const symmetry = { x: 0.51, confidence: 0.9 };
  yield scene({ people: [standing()], symmetry, composition: 'centred', left: 1100, right: 3100 });
  for (const right of [2500, 2650]) yield scene({ people: [standing({ arms: 'akimbo' })], right });
  yield scene({ people: [skirted()], top: 1250, bottom: 3880 });
  const passing = [standing({ x: 1500 }), standing({ id: 2, height: 1500, x: 3400, headTop: 3200 })];
  for (const right of [3250, 3400]) yield scene({ people: passing, right });
}
