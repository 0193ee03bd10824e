import { middleOf } from '../geometry/points.ts';
import type { Figure } from './figure.ts';
import { PROPORTIONS } from './proportions.ts';

/** Height of the knees where they were found, else by the proportions of hip to ankle. */
export function kneeLine(figure: Figure): number {
  const { hip, ankle } = figure.lines;
  const found = [figure.points.left_knee, figure.points.right_knee].filter((point) => point !== undefined);
  const { hipToKnee, kneeToAnkle } = PROPORTIONS;
  const knee = found.length > 0 ? middleOf(...found).y : hip + ((ankle - hip) * hipToKnee) / (hipToKnee + kneeToAnkle);
  return Math.min(Math.max(knee, hip), ankle);
}
