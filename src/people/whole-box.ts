import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from './figure.ts';

/** The box around everything that is known or reckoned of a person: outline, points, face, hands and feet. */
export function wholeBox(figure: Figure): Edges {
  let { left, top, right, bottom } = figure.extent;
  const reach = (box: Edges): void => {
    left = Math.min(left, box.left);
    top = Math.min(top, box.top);
    right = Math.max(right, box.right);
    bottom = Math.max(bottom, box.bottom);
  };
  for (const name in figure.points) {
    const { x, y } = figure.points[name as keyof typeof figure.points]!;
    reach({ left: x, top: y, right: x, bottom: y });
  }
  if (figure.face) reach(figure.face.box);
  for (const { box } of figure.hands) reach(box);
  for (const { box } of figure.feet) reach(box);
  return { left, top, right, bottom };
}
