import { expect, test } from 'vitest';
import { handPoints, isPointName, POINT_NAMES } from './points.ts';
import { JOINTS, SEGMENTS } from './segments.ts';

// Source: Jin et al., "Whole-Body Human Pose Estimation in the Wild" (2020): 17 body, 6 foot and 42 hand points. The
// numbers are from memory; the 68 face points are not part of a people file.
test('the points of a body', () => {
  expect(POINT_NAMES).toHaveLength(17 + 6 + 2 * 21);
  expect(new Set(POINT_NAMES).size).toBe(POINT_NAMES.length);
  expect(handPoints('left')).toHaveLength(21);
  expect(POINT_NAMES.every(isPointName)).toBe(true);
  expect(['head_top', 'chin', 'left_finger', 'constructor', ''].some(isPointName)).toBe(false);
});

test('every left point has a right one', () => {
  const left = POINT_NAMES.filter((name) => name.startsWith('left_'));
  expect(left.map((name) => name.replace('left', 'right')).every(isPointName)).toBe(true);
});

test('joints and the limbs that end there', () => {
  expect(SEGMENTS).toHaveLength(10);
  const limbs = Object.fromEntries(JOINTS.map(({ joint, limbs: ending }) => [joint, ending.map(({ kind }) => kind)]));
  expect(limbs).toMatchObject({
    left_hip: ['thigh'],
    left_knee: ['thigh', 'shin'],
    left_ankle: ['shin'],
    right_elbow: ['upper-arm', 'forearm'],
    right_wrist: ['forearm'],
  });
  expect(JOINTS).toHaveLength(10);
});
