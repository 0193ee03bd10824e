import type { Edges, Point } from '../../geometry/shapes.ts';
import { turnPoint } from '../../geometry/turning.ts';
import { SEGMENTS } from '../../people/segments.ts';
import type { Figure } from '../../people/figure.ts';
import type { Configuration } from '../../rules/configuration.ts';
import { edgesInQuestion, type Finding } from '../../rules/finding.ts';
import { symmetryAxis } from '../../rules/placement/axis.ts';
import type { Scene } from '../../rules/scene.ts';
import type { Switch } from '../messages.ts';
import { polygon, shape } from './shape.ts';
import type { View } from './view.ts';

/** What levelling is judged by, in lines over the crop's height. */
const LEVEL_LINES = 8;

/** Lines inside the crop that help to place things; each can be switched on by itself, and they combine. */
export function guideLines(
  scene: Scene,
  view: View,
  on: ReadonlySet<Switch>,
  configuration: Configuration,
): SVGElement[] {
  const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
  const across = (y: number): SVGElement => shape('line', 'guide', { x1: left, x2: right, y1: y, y2: y });
  const down = (x: number): SVGElement => shape('line', 'guide', { x1: x, x2: x, y1: top, y2: bottom });
  const [width, height] = [right - left, bottom - top];
  const drawn: SVGElement[] = [];
  if (on.has('thirds')) {
    for (const share of [1 / 3, 2 / 3]) drawn.push(down(left + width * share), across(top + height * share));
  }
  if (on.has('centre')) {
    const diagonals = [
      { x1: left, y1: top, x2: right, y2: bottom },
      { x1: left, y1: bottom, x2: right, y2: top },
    ];
    const lines = diagonals.map((line) => shape('line', 'guide faint', line));
    const axis = symmetryAxis(scene);
    const own = axis === undefined ? undefined : view.toPage({ x: axis, y: 0 }).x;
    const isIn = own !== undefined && own > left && own < right;
    const ofScene = isIn ? [shape('line', 'guide of-scene', { x1: own, x2: own, y1: top, y2: bottom })] : [];
    drawn.push(down(left + width / 2), across(top + height / 2), ...lines, ...ofScene);
  }
  if (on.has('eye-line')) {
    for (const { lines } of scene.facing) drawn.push(across(view.toPage({ x: 0, y: lines.eyes }).y));
  }
  if (on.has('safe-margin')) {
    // What the rule about clearance asks for.
    const room = configuration.get('edge-clearance')?.settings['room'] ?? 0;
    const inner = (room / 100) * Math.min(width, height);
    const box = { x: left + inner, y: top + inner, width: width - 2 * inner, height: height - 2 * inner };
    drawn.push(shape('rect', 'guide', box));
  }
  return drawn;
}

/** What is printed beyond the crop and trimmed, and what stays free inside it, where an output on paper asks for either. */
export function printLines({ crop, print }: Scene, view: View): SVGElement[] {
  if (!print) return [];
  const { left, top, right, bottom } = view.edgesOnPage(crop);
  const box = (className: string, share: Point, outward: 1 | -1): SVGElement[] => {
    if (share.x === 0 && share.y === 0) return [];
    const [x, y] = [outward * share.x * (right - left), outward * share.y * (bottom - top)];
    return [
      shape('rect', className, { x: left - x, y: top - y, width: right - left + 2 * x, height: bottom - top + 2 * y }),
    ];
  };
  return [...box('guide bleed', print.bleed, 1), ...box('guide safe', print.safe, -1)];
}

/** Level and upright lines over the crop, while the picture is being turned. */
export function levelLines(scene: Scene, view: View): SVGElement[] {
  const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
  const step = (bottom - top) / LEVEL_LINES;
  const drawn: SVGElement[] = [];
  for (let y = top + step; y < bottom - 1; y += step) {
    drawn.push(shape('line', 'guide faint', { x1: left, x2: right, y1: y, y2: y }));
  }
  for (let x = left + step; x < right - 1; x += step) {
    drawn.push(shape('line', 'guide faint', { x1: x, x2: x, y1: top, y2: bottom }));
  }
  return drawn;
}

/** The bodies as they were measured: parts as lines, joints as dots, the outline. */
export function bodyMap(figures: readonly Figure[], view: View): SVGElement[] {
  return figures.flatMap((figure) => bodyOf(figure, view));
}

function bodyOf({ points, headTop, outline, gaps }: Figure, view: View): SVGElement[] {
  const drawn: SVGElement[] = [];
  if (outline && outline.length > 2) {
    for (const line of [outline, ...gaps]) {
      drawn.push(polygon('outline', line.map((corner) => view.toPage(corner)))); // prettier-ignore
    }
  }
  for (const { from, to } of SEGMENTS) {
    const [first, second] = [points[from], points[to]];
    if (!first || !second) continue;
    const [start, end] = [view.toPage(first), view.toPage(second)];
    drawn.push(shape('line', 'bone', { x1: start.x, y1: start.y, x2: end.x, y2: end.y }));
  }
  const dots = [...Object.values(points), headTop].flatMap((point) => (point ? view.toPage(point) : []));
  return [...drawn, ...dots.map(({ x, y }) => shape('circle', 'joint', { cx: x, cy: y, r: 2.5 }))];
}

/** Marks where it hurts: the edge in question, and the joint; the worst on top. */
export function hurtMarks(
  scene: Scene,
  view: View,
  findings: readonly Pick<Finding, 'rule' | 'edge' | 'joint' | 'person' | 'severity'>[],
): SVGElement[] {
  const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
  const lines = {
    left: { x1: left, x2: left, y1: top, y2: bottom },
    right: { x1: right, x2: right, y1: top, y2: bottom },
    top: { x1: left, x2: right, y1: top, y2: top },
    bottom: { x1: left, x2: right, y1: bottom, y2: bottom },
  };
  const worstLast = [...findings].sort((a, b) => Number(a.severity === 'error') - Number(b.severity === 'error'));
  return worstLast.flatMap((finding) => {
    const { joint, person, severity } = finding;
    if (severity === 'info') return [];
    const points = scene.figures.find(({ id }) => id === person)?.points as Readonly<Record<string, { x: number; y: number }>> | undefined; // prettier-ignore
    const place = joint === undefined ? undefined : points?.[joint];
    const at = place && view.toPage(place);
    return [
      ...edgesInQuestion(finding).map((edge) => shape('line', `hurt ${severity}`, lines[edge])),
      ...(at ? [shape('circle', `hurt ${severity}`, { cx: at.x, cy: at.y, r: 9 })] : []),
    ];
  });
}

/** A crop that was, while another is drawn; it may belong to a picture that was turned otherwise. */
export function earlierCrop(className: string, crop: Edges, degrees: number, view: View): SVGElement {
  const { left, top, right, bottom } = crop;
  const corners = [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ].map((corner) => view.toPage(turnPoint(corner, view.photo, view.degrees - degrees)));
  return polygon(className, corners);
}
