import { expect, test } from 'vitest';
import { figureOf } from './figure.ts';
import { measuringError } from './measuring-error.ts';
import { PHOTO, standing } from './testing/standing.ts';

const measured = figureOf(standing({ toes: true }), PHOTO, 0);
const byHand = figureOf(standing({ toes: true, source: 'hand' }), PHOTO, 0);

test('grows with the person and with doubt', () => {
  const twice = figureOf(standing({ height: 8000, toes: true }), PHOTO, 0);
  expect(measuringError(twice, 'knee', 0.9)).toBeCloseTo(2 * measuringError(measured, 'knee', 0.9), 6);
  expect(measuringError(measured, 'knee', 0.69)).toBeCloseTo(1.5 * measuringError(measured, 'knee', 0.7), 6);
});

test('a place put there by hand is taken as it is, but for a hair', () => {
  expect(measuringError(byHand, 'knee', 0.9)).toBeCloseTo(0.002 * byHand.height, 6);
  expect(measuringError(byHand, 'hip', 0.5)).toBe(measuringError(byHand, 'face', 1));
});
