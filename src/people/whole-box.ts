import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from './figure.ts';

/** The box around everything that is known or reckoned of a person: outline, points, face, hands and feet. */
export function wholeBox({ extent, points, face, hands, feet }: Figure): Edges {
  let { left, top, right, bottom } = extent;
  for (const name in points) {
    const point = points[name as keyof typeof points];
    if (!point) continue;
    const { x, y } = point;
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  }
  const take = ({ box }: { readonly box: Edges }): void => {
    left = Math.min(left, box.left);
    top = Math.min(top, box.top);
    right = Math.max(right, box.right);
    bottom = Math.max(bottom, box.bottom);
  };
  for (const hand of hands) take(hand);
  for (const foot of feet) take(foot);
  if (face) take(face);
  return { left, top, right, bottom };
}
