import type { Edges } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { SEGMENTS } from '../../people/segments.ts';
import type { Figure } from '../../people/figure.ts';
import type { Finding } from '../../rules/finding.ts';
import type { Scene } from '../../rules/scene.ts';
import { shape } from './elements.ts';
import type { View } from './view.ts';

/** Each can be switched on by itself; they combine. */
export const GUIDES = ['thirds', 'centre', 'eye-line', 'safe-margin'] as const;
export type Guide = (typeof GUIDES)[number];

/** Of the crop's short side (what the rule about clearance asks for). */
const SAFE_SHARE = 0.025;

/** Lines inside the crop that help to place things. */
export function guideLines(scene: Scene, view: View, on: ReadonlySet<string>): SVGElement[] {
  const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
  const across = (y: number): SVGElement => shape('line', 'guide', { x1: left, x2: right, y1: y, y2: y });
  const down = (x: number): SVGElement => shape('line', 'guide', { x1: x, x2: x, y1: top, y2: bottom });
  const [width, height] = [right - left, bottom - top];
  const drawn: SVGElement[] = [];
  if (on.has('thirds')) {
    for (const share of [1 / 3, 2 / 3]) drawn.push(down(left + width * share), across(top + height * share));
  }
  if (on.has('centre')) drawn.push(down(left + width / 2), across(top + height / 2));
  if (on.has('eye-line')) {
    for (const { lines } of scene.facing) drawn.push(across(view.toPage({ x: 0, y: lines.eyes }).y));
  }
  if (on.has('safe-margin')) {
    const inner = SAFE_SHARE * Math.min(width, height);
    const box = { x: left + inner, y: top + inner, width: width - 2 * inner, height: height - 2 * inner };
    drawn.push(shape('rect', 'guide', box));
  }
  return drawn;
}

/** The bodies as they were measured: parts as lines, joints as dots, the outline. */
export function bodyMap(scene: Scene, view: View): SVGElement[] {
  return scene.figures.flatMap((figure) => bodyOf(figure, view));
}

function bodyOf({ points, headTop, outline }: Figure, view: View): SVGElement[] {
  const drawn: SVGElement[] = [];
  if (outline && outline.length > 2) {
    const polygon = shape('polygon', 'outline', {});
    const corners = outline.map((corner) => view.toPage(corner));
    polygon.setAttribute('points', corners.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' '));
    drawn.push(polygon);
  }
  for (const { from, to } of SEGMENTS) {
    const [first, second] = [points[from], points[to]];
    if (!first || !second) continue;
    const [start, end] = [view.toPage(first), view.toPage(second)];
    drawn.push(shape('line', 'bone', { x1: start.x, y1: start.y, x2: end.x, y2: end.y }));
  }
  const dots = [...Object.values(points), ...(headTop ? [headTop] : [])].map((point) => view.toPage(point));
  return [...drawn, ...dots.map(({ x, y }) => shape('circle', 'joint', { cx: x, cy: y, r: 2.5 }))];
}

/** Marks where it hurts: the edge in question, and the joint. */
export function hurtMarks(scene: Scene, view: View, findings: readonly Finding[]): SVGElement[] {
  const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
  const lines = {
    left: { x1: left, x2: left, y1: top, y2: bottom },
    right: { x1: right, x2: right, y1: top, y2: bottom },
    top: { x1: left, x2: right, y1: top, y2: top },
    bottom: { x1: left, x2: right, y1: bottom, y2: bottom },
  };
  return findings.flatMap(({ edge, joint, person, severity }) => {
    if (severity === 'info') return [];
    const points = scene.figures.find(({ id }) => id === person)?.points as Readonly<Record<string, { x: number; y: number }>> | undefined; // prettier-ignore
    const place = joint === undefined ? undefined : points?.[joint];
    const at = place && view.toPage(place);
    return [
      ...(edge ? [shape('line', `hurt ${severity}`, lines[edge])] : []),
      ...(at ? [shape('circle', `hurt ${severity}`, { cx: at.x, cy: at.y, r: 9 })] : []),
    ];
  });
}

/** The crop that the text has, while another is drawn. */
export function wasLine(was: Edges, is: Edges, view: View): SVGElement[] {
  const isSame = was.left === is.left && was.top === is.top && was.right === is.right && was.bottom === is.bottom;
  if (isSame) return [];
  const { left, top } = view.edgesOnPage(was);
  const [width, height] = [widthOf(was) * view.scale, heightOf(was) * view.scale];
  return [shape('rect', 'was', { x: left, y: top, width, height })];
}
