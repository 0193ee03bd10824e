import { effectiveEdges } from '../../geometry/crop.ts';
import { shapeWords } from '../../geometry/shape-words.ts';
import type { EdgeName, Edges, Rectangle, Size } from '../../geometry/shapes.ts';
import { EDGE_NAMES, heightOf, widthOf } from '../../geometry/shapes.ts';

/** A crop with the turning that it lies in. */
export interface TurnedCrop {
  /** Fractions of the photo, in the turned picture. */
  readonly crop: Rectangle;
  /** Clockwise. */
  readonly degrees: number;
}

/** How one crop differs from another. */
export interface Movement {
  /** How far each edge went outward (negative: inward), in whole pixels of the photo; only edges that went. */
  readonly edges: Readonly<Partial<Record<EdgeName, number>>>;
  /** Degrees clockwise that were added. */
  readonly turned: number;
  /** The area now in percent of the area then. */
  readonly area: number;
  /** For reading. */
  readonly words: readonly string[];
}

const EDGE_WORDS: Readonly<Record<EdgeName, string>> = {
  left: 'left edge',
  top: 'upper edge',
  right: 'right edge',
  bottom: 'lower edge',
};

/**
 * What moved from one crop to another.
 * @param photo size in pixels; when nobody knows it, a photo of 10,000 pixels each way stands for it and words give percent
 */
export function movementOf(then: TurnedCrop, now: TurnedCrop, photo: Size | undefined): Movement {
  const size = photo ?? UNKNOWN;
  const before = effectiveEdges(then.crop, size, then.degrees);
  const after = effectiveEdges(now.crop, size, now.degrees);
  const edges = Object.fromEntries(
    EDGE_NAMES.map((edge) => [edge, outward(edge, before, after)] as const).filter(([, distance]) => distance !== 0),
  );
  const turned = Math.round((now.degrees - then.degrees) * 100) / 100;
  const area = Math.round((100 * areaOf(after)) / Math.max(1, areaOf(before)));
  const words = [...turnWords(turned), ...edgeWords(before, after, edges, area, photo !== undefined)];
  return { edges, turned, area, words: photo ? [...words, ...shapeChange(before, after)] : words };
}

const UNKNOWN: Size = { width: 10_000, height: 10_000 };

/** Whole pixels that an edge went outward. */
function outward(edge: EdgeName, before: Edges, after: Edges): number {
  const sign = edge === 'left' || edge === 'top' ? -1 : 1;
  return Math.round(sign * (after[edge] - before[edge])) + 0;
}

function areaOf(edges: Edges): number {
  return Math.max(0, widthOf(edges)) * Math.max(0, heightOf(edges));
}

function turnWords(turned: number): string[] {
  if (turned === 0) return [];
  return [`turned by ${Math.abs(turned)}° ${turned > 0 ? 'clockwise' : 'anticlockwise'}`];
}

function edgeWords(before: Edges, after: Edges, edges: Movement['edges'], area: number, inPixels: boolean): string[] {
  const amount = (pixels: number): string =>
    inPixels ? `${Math.abs(pixels)} px` : `${String(Number((Math.abs(pixels) / 100).toFixed(2)))} %`;
  if (Object.keys(edges).length === 0) return [];
  const isShift =
    Math.abs(widthOf(after) - widthOf(before)) < 1.5 && Math.abs(heightOf(after) - heightOf(before)) < 1.5;
  if (isShift) {
    const right = edges.right ?? 0;
    const down = edges.bottom ?? 0;
    const ways = [
      ...(right === 0 ? [] : [`${amount(right)} to the ${right > 0 ? 'right' : 'left'}`]),
      ...(down === 0 ? [] : [`${amount(down)} ${down > 0 ? 'down' : 'up'}`]),
    ];
    return ways.length === 0 ? [] : [`moved ${ways.join(' and ')}, the same size`];
  }
  const size = area === 100 ? 'about the same area' : `${area < 100 ? 'tighter' : 'wider'}: ${area} % of the area`;
  const ways = EDGE_NAMES.flatMap((edge) => {
    const distance = edges[edge];
    return distance === undefined ? [] : [`${EDGE_WORDS[edge]} ${amount(distance)} ${distance > 0 ? 'out' : 'in'}`];
  });
  return [size, ...ways];
}

function shapeChange(before: Edges, after: Edges): string[] {
  if ([before, after].some((edges) => widthOf(edges) < 1 || heightOf(edges) < 1)) return [];
  const then = shapeWords(widthOf(before), heightOf(before));
  const now = shapeWords(widthOf(after), heightOf(after));
  return then === now ? [] : [`shape ${then}, now ${now}`];
}
