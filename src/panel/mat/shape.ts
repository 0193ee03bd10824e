import type { Point } from '../../geometry/shapes.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** A drawn shape; its looks come from the style sheet. */
export function shape(name: string, className: string, attributes: Readonly<Record<string, number>>): SVGElement {
  const element = document.createElementNS(SVG, name);
  element.setAttribute('class', className);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value.toFixed(1));
  return element;
}

/** A closed line through places of the page. */
export function polygon(className: string, corners: readonly Point[]): SVGElement {
  const drawn = shape('polygon', className, {});
  drawn.setAttribute('points', corners.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' '));
  return drawn;
}
