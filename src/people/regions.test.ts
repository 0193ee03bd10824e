import { describe, expect, test } from 'vitest';
import { figureOf } from './figure.ts';
import { footRegion, handRegion } from './regions.ts';
import { PHOTO, standing } from './testing/standing.ts';

const pointsOf = (options: Parameters<typeof standing>[0]) => figureOf(standing(options), PHOTO, 0).points;
const rounded = (box: object | undefined) =>
  box && Object.fromEntries(Object.entries(box).map(([edge, value]) => [edge, Math.round(value as number)]));

describe('a hand', () => {
  test('is the box around its wrist and fingers', () => {
    const hand = handRegion(pointsOf({ fingers: true }), 'left');
    expect(rounded(hand?.box)).toEqual({ left: 2480, top: 3620, right: 2620, bottom: 4052 });
    expect(hand?.confidence).toBeCloseTo(0.95, 9);
    expect(hand?.limb).toBeCloseTo(Math.hypot(584, 40), 6);
  });

  test('needs three of its points; with fewer it is drawn on from the forearm and only possible', () => {
    const without = ['left_hand_root', 'left_thumb4', 'left_pinky_finger4'] as const;
    const hand = handRegion(pointsOf({ fingers: true, without }), 'left');
    expect(hand?.confidence).toBeCloseTo(0.6, 9);
    // 60 % of the forearm (40, 584) past the wrist, 12 % of 585.4 around.
    expect(rounded(hand?.box)).toEqual({ left: 2490, top: 3550, right: 2654, bottom: 4041 });
  });

  test('whose forearm was not found measures by itself', () => {
    const hand = handRegion(pointsOf({ fingers: true, without: ['left_elbow'] }), 'left');
    expect(hand?.limb).toBeCloseTo(Math.hypot(140, 432), 6);
  });

  test('without wrist or elbow, and without fingers, is unknown', () => {
    expect(handRegion(pointsOf({ without: ['left_wrist'] }), 'left')).toBeUndefined();
    expect(handRegion(pointsOf({ without: ['left_elbow'] }), 'left')).toBeUndefined();
  });
});

describe('a foot', () => {
  test('is the box around its ankle, heel and toes', () => {
    const foot = footRegion(pointsOf({ toes: true }), 'right');
    expect(rounded(foot?.box)).toEqual({ left: 1720, top: 5408, right: 1840, bottom: 5564 });
  });

  test('needs two of its points; with fewer it is drawn on from the lower leg and only possible', () => {
    const points = pointsOf({ toes: true, without: ['left_heel', 'left_big_toe'] });
    const foot = footRegion(points, 'left');
    expect(foot?.confidence).toBeCloseTo(0.6, 9);
    expect(rounded(foot?.box)).toEqual({ left: 2023, top: 5408, right: 2337, bottom: 5664 });
    expect(footRegion(points, 'left', 5600)?.box.bottom).toBe(5600);
    expect(footRegion(points, 'left', 5300)?.box.bottom).toBeCloseTo(5408, 6);
  });

  test('whose lower leg was not found measures by itself', () => {
    const foot = footRegion(pointsOf({ toes: true, without: ['left_knee'] }), 'left');
    expect(foot?.limb).toBeCloseTo(2 * Math.hypot(120, 156), 6);
  });

  test('without ankle or knee, and without toes, is unknown', () => {
    expect(footRegion(pointsOf({ without: ['left_ankle'] }), 'left')).toBeUndefined();
    expect(footRegion(pointsOf({ without: ['left_knee'] }), 'left')).toBeUndefined();
  });
});
