import type { Point, Rectangle, Size } from '../../geometry/shapes.ts';
import { edgesOf, heightOf, widthOf } from '../../geometry/shapes.ts';
import { unturnPoint } from '../../geometry/turning.ts';
import type { Person } from '../../people/person.ts';
import { SEGMENTS } from '../../people/segments.ts';
import type { Picture } from '../../session/pictures.ts';
import { text } from './escape.ts';

/** A crop to be drawn, and how. */
export interface DrawnCrop {
  readonly crop: Rectangle;
  readonly degrees: number;
  /** Class of the line. */
  readonly as: 'then' | 'now';
}

/** Points that are less sure than this are not drawn. */
const SURE = 0.3;
/** The photo's longer edge in the drawing's units: numbers stay short whatever the photo's size. */
const UNITS = 1000;
/** Of a drawing on the page, in pixels, unless there is less room. */
const LONG_EDGE = 760;

interface Scale {
  readonly width: number;
  readonly height: number;
}

/** The whole photo, its picture or the bodies in it, with crops drawn on it as outlines. */
export function wholePhoto(
  size: Size,
  { picture, people, crops, label }: {
    readonly picture?: Picture | undefined;
    readonly people: readonly Person[];
    readonly crops: readonly DrawnCrop[];
    readonly label: string;
  }, // prettier-ignore
): string {
  const scale = scaleOf(size);
  const ground = picture
    ? `<image href="${text(picture.address)}" width="${scale.width}" height="${scale.height}" preserveAspectRatio="none"/>`
    : `<rect class="photo" width="${scale.width}" height="${scale.height}"/>${bodies(people, scale)}`;
  const quads = crops.map(({ crop, degrees, as }) => ({ as, points: corners(crop, degrees, scale) }));
  const kept = quads.at(-1);
  const away = kept ? `<path class="away" d="M0 0H${scale.width}V${scale.height}H0Z${pathOf(kept.points)}"/>` : '';
  const lines = quads.map(({ as, points }) => `<path class="under" d="${pathOf(points)}"/><path class="line ${as}" d="${pathOf(points)}"/>`); // prettier-ignore
  return drawing({ x: 0, y: 0, w: scale.width, h: scale.height }, label, ground + away + lines.join(''), 6);
}

/** What a crop shows of the bodies in a photo, for when the photo itself is not there. */
export function croppedBodies(
  size: Size,
  { crop, degrees }: Omit<DrawnCrop, 'as'>,
  people: readonly Person[],
  label: string,
): string {
  const scale = scaleOf(size);
  const edges = edgesOf(crop, scale);
  const view = { x: edges.left, y: edges.top, w: Math.max(1, widthOf(edges)), h: Math.max(1, heightOf(edges)) };
  // SVG turns clockwise for positive degrees, as the manifest does.
  const turn =
    degrees === 0 ? '' : ` transform="rotate(${degrees} ${short(scale.width / 2)} ${short(scale.height / 2)})"`;
  const photo = `<rect class="photo" width="${scale.width}" height="${scale.height}"/>`;
  return drawing(view, label, `<g${turn}>${photo}${bodies(people, scale)}</g>`, 0);
}

function scaleOf({ width, height }: Size): Scale {
  const factor = UNITS / Math.max(width, height);
  return { width: short(width * factor), height: short(height * factor) };
}

function drawing({ x, y, w, h }: Rectangle, label: string, content: string, margin: number): string {
  const [left, top, width, height] = [x - margin, y - margin, w + 2 * margin, h + 2 * margin] as const;
  const larger = LONG_EDGE / Math.max(width, height);
  const shown = `width="${Math.round(width * larger)}" height="${Math.round(height * larger)}"`;
  const box = [left, top, width, height].map(short).join(' ');
  return `<svg class="drawing" role="img" aria-label="${text(label)}" viewBox="${box}" ${shown}>${content}</svg>`;
}

function bodies(people: readonly Person[], scale: Scale): string {
  return people.map((person) => `<g class="body">${outline(person, scale)}${limbs(person, scale)}</g>`).join('');
}

function outline({ outline: corners, box }: Person, scale: Scale): string {
  const [left, top, width, height] = box;
  if (corners && corners.length > 2)
    return `<path class="skin" d="${pathOf(corners.map((at) => inUnits(at, scale)))}"/>`;
  const from = inUnits({ x: left, y: top }, scale);
  const to = inUnits({ x: width, y: height }, scale);
  return `<rect class="box" x="${from.x}" y="${from.y}" width="${Math.max(0, to.x)}" height="${Math.max(0, to.y)}"/>`;
}

function limbs({ points }: Person, scale: Scale): string {
  const pairs = [
    ...SEGMENTS.map(({ from, to }) => [points[from], points[to]] as const),
    [points.left_shoulder, points.right_shoulder] as const,
    [points.left_hip, points.right_hip] as const,
  ];
  const lines = pairs.flatMap(([from, to]) => {
    if (!from || !to || from.confidence < SURE || to.confidence < SURE) return [];
    const [start, end] = [inUnits(from, scale), inUnits(to, scale)];
    return [`M${start.x} ${start.y}L${end.x} ${end.y}`];
  });
  const face = [points.nose, points.left_eye, points.right_eye].flatMap((at) => {
    if (!at || at.confidence < SURE) return [];
    const { x, y } = inUnits(at, scale);
    return [`M${x} ${y}h0`];
  });
  return `<path class="bones" d="${lines.join('')}"/><path class="face" d="${face.join('')}"/>`;
}

function corners({ x, y, w, h }: Rectangle, degrees: number, scale: Scale): Point[] {
  const all = [
    { x, y },
    { x: x + w, y },
    { x: x + w, y: y + h },
    { x, y: y + h },
  ];
  return all.map((corner) => unturnPoint({ x: corner.x * scale.width, y: corner.y * scale.height }, scale, degrees));
}

function inUnits({ x, y }: Point, scale: Scale): Point {
  return { x: short(x * scale.width), y: short(y * scale.height) };
}

function pathOf(points: readonly Point[]): string {
  return `M${points.map(({ x, y }) => `${short(x)} ${short(y)}`).join('L')}Z`;
}

function short(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}

export const GEOMETRY_STYLE = `
.drawing { overflow: hidden; background: var(--figure); } .photo { fill: #b9bcc0; }
.skin { fill: #e4ded6; stroke: #6a6d72; stroke-width: 2; } .box { fill: none; stroke: #6a6d72; stroke-width: 2; stroke-dasharray: 6 5; }
.bones { fill: none; stroke: #4a4d52; stroke-width: 4; stroke-linecap: round; }
.face { fill: none; stroke: #4a4d52; stroke-width: 7; stroke-linecap: round; }
.away { fill: #101114; fill-opacity: .5; fill-rule: evenodd; } .under { fill: none; stroke: #fff; stroke-width: 9; }
.line { fill: none; stroke-width: 5; } .line.then { stroke: #d55e00; stroke-dasharray: 18 11; } .line.now { stroke: #0072b2; }
`;
