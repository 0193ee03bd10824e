import { describe, expect, test } from 'vitest';
import { isInsidePhoto } from '../geometry/crop.ts';
import { edgesOf } from '../geometry/shapes.ts';
import { standing } from '../people/testing/standing.ts';
import { configure } from '../rules/configuration.ts';
import { checkScene } from '../rules/report.ts';
import { scene, type Frame } from '../rules/testing/scenes.ts';
import { levelFrame, straightenLess } from './index.ts';

const ALL = configure();
const SHAPE = 2 / 3;

function leaning(degrees: number, frame: Frame) {
  return scene({ shape: SHAPE, tilt: { degrees, confidence: 0.9 }, ...frame });
}

describe('a frame levelled and cropped in one step', () => {
  test.each([-7.5, -3, -0.6, 0.6, 3, 7.5])('by %d° it lies in the photo and breaks nothing', (degrees) => {
    const frame = leaning(degrees, { people: [standing({ toes: true, headTop: 1750 })] });
    const levelled = levelFrame(frame, ALL)!;
    expect(levelled.straighten).toBe(degrees);
    expect(isInsidePhoto(edgesOf(levelled.crop, frame.photo), frame.photo, degrees)).toBe(true);
    expect(levelled.broken).toEqual([]);
    expect(checkScene(levelled.scene, ALL).filter(({ severity }) => severity !== 'info')).toEqual([]);
  });

  test('without a lean that is sure there is nothing to level', () => {
    expect(levelFrame(scene({ people: [standing()] }), ALL)).toBeUndefined();
    expect(levelFrame(scene({ people: [standing()], tilt: { degrees: 3, confidence: 0.4 } }), ALL)).toBeUndefined();
  });
});

describe('straightened less', () => {
  /** Turned by −3°, and asked to show the whole figure, whose feet are near the photo's end. */
  const turned = (headTop: number) =>
    leaning(-3, {
      people: [standing({ toes: true, headTop })],
      degrees: -3,
      left: 160,
      top: 265,
      right: 3840,
      bottom: 5785,
      askedLength: 'full-length',
    });

  test('by as little as lets the feet in', () => {
    expect(straightenLess(turned(1846), ALL)?.straighten).toBe(-2.5);
    expect(straightenLess(turned(1840), ALL)?.straighten).toBe(-2.8);
  });

  test('never so much that the lean is seen', () => {
    expect(straightenLess(turned(1858), ALL)).toBeUndefined();
    expect(straightenLess({ ...turned(1846), horizon: { y: 0.1, confidence: 0.9 } }, ALL)?.straighten).toBe(-2.5);
    expect(straightenLess({ ...turned(1852), horizon: { y: 0.1, confidence: 0.9 } }, ALL)).toBeUndefined();
  });

  test('not at all where another crop is enough', () => {
    expect(straightenLess(turned(1780), ALL)).toBeUndefined();
  });
});
