const SVG = 'http://www.w3.org/2000/svg';

/** A drawn shape; its looks come from the style sheet. */
export function shape(name: string, className: string, attributes: Readonly<Record<string, number>>): SVGElement {
  const element = document.createElementNS(SVG, name);
  element.setAttribute('class', className);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value.toFixed(1));
  return element;
}
