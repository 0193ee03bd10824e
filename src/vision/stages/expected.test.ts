import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectedPlace, parentOf } from './expected.ts';

const down = { x: 0, y: 1 };

describe('expectedPlace', () => {
  it('goes on in the direction in which the leg leaves the picture', () => {
    const hip = { x: 100, y: 300 };
    const snapped = { x: 160, y: 380 };
    const knee = expectedPlace('left_knee', { parent: hip, snapped, down, trunk: 200 })!;
    // Thigh to trunk 0.245 to 0.288 of the height (Drillis and Contini, see people/proportions.ts); direction 3 : 4.
    const thigh = (200 * 0.245) / 0.288;
    expect(knee.x).toBeCloseTo(100 + 0.6 * thigh, 6);
    expect(knee.y).toBeCloseTo(300 + 0.8 * thigh, 6);
  });

  it('goes on with the trunk where next to nothing of the limb is seen', () => {
    const knee = expectedPlace('right_ankle', {
      parent: { x: 50, y: 400 },
      snapped: { x: 60, y: 400 },
      down: { x: 0.6, y: 0.8 },
      trunk: 288,
    })!;
    expect(knee.x).toBeCloseTo(50 + 0.6 * 246, 6);
    expect(knee.y).toBeCloseTo(400 + 0.8 * 246, 6);
  });

  it('reckons legs only', () => {
    const build = { parent: { x: 0, y: 0 }, snapped: { x: 0, y: 9 }, down, trunk: 10 };
    for (const name of ['nose', 'left_shoulder', 'left_elbow', 'right_wrist'] as const) {
      expect(parentOf(name)).toBeUndefined();
      expect(expectedPlace(name, build)).toBeUndefined();
    }
    expect(parentOf('right_ankle')).toBe('right_knee');
    expect(expectedPlace('left_hip', { ...build, parent: undefined })).toBeUndefined();
  });

  it('moves and grows with the body', () => {
    const whole = fc.integer({ min: -900, max: 900 });
    fc.assert(
      fc.property(whole, whole, fc.integer({ min: 10, max: 900 }), (x, y, trunk) => {
        const at = (left: number, top: number, scale: number) =>
          expectedPlace('left_knee', {
            parent: { x: left, y: top },
            snapped: { x: left + 3 * scale, y: top + 4 * scale },
            down,
            trunk: 5 * scale,
          })!;
        const knee = at(0, 0, 1);
        const other = at(x, y, trunk);
        expect(other.x).toBeCloseTo(x + trunk * knee.x, 6);
        expect(other.y).toBeCloseTo(y + trunk * knee.y, 6);
      }),
    );
  });
});
