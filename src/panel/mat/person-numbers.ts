import type { Figure } from '../../people/figure.ts';
import { shape } from './shape.ts';
import type { View } from './view.ts';

/** Pixels of the page. */
const RADIUS = 8;
const OVER_HEAD = 13;

/** The number by which messages call a person, over each head that is on the page. */
export function personNumbers(figures: readonly Figure[], view: View): SVGElement[] {
  return figures.flatMap(({ id, headTop, extent }) => {
    const top = headTop ?? { x: (extent.left + extent.right) / 2, y: extent.top };
    const { x, y } = view.toPage(top);
    if (x < 0 || x > view.page.width || y < 0 || y > view.page.height) return [];
    const at = { x, y: Math.max(RADIUS + 2, y - OVER_HEAD) };
    const group = shape('g', 'person', {});
    const number = shape('text', '', { x: at.x, y: at.y });
    number.textContent = String(id);
    group.append(shape('circle', '', { cx: at.x, cy: at.y, r: id > 9 ? RADIUS + 2 : RADIUS }), number);
    return [group];
  });
}
