import type { Point, Size } from '../../geometry/shapes.ts';
import { isRecord, listOf, textsOf, type Told } from './told.ts';

/** A marked part of a picture, such as a face; corners in pixels of the picture as it is seen. */
export interface MarkedRegion {
  readonly standard: 'mwg' | 'iptc';
  readonly shape: 'rectangle' | 'circle' | 'polygon';
  /** Of a rectangle four, of a circle its middle and a point to the right on it, of a polygon as many as it has. */
  readonly points: readonly Point[];
  readonly names: readonly string[];
  /** MWG: Face, Pet, Focus or BarCode. */
  readonly type?: string;
  /** IPTC: the region's own id, and terms for what it is and what it is for. */
  readonly id?: string;
  readonly kinds: readonly string[];
  readonly roles: readonly string[];
}

/** Turns a point of the picture as it is stored into one of the picture as it is seen, both in pixels. */
export type Orient = (point: Point) => Point;

/** By EXIF orientation (Exif 2.32, tag 0x0112); sizes as stored. */
export function orientBy(orientation: number, { width, height }: Size): Orient {
  switch (orientation) {
    case 2:
      return ({ x, y }) => ({ x: width - x, y });
    case 3:
      return ({ x, y }) => ({ x: width - x, y: height - y });
    case 4:
      return ({ x, y }) => ({ x, y: height - y });
    case 5:
      return ({ x, y }) => ({ x: y, y: x });
    case 6:
      return ({ x, y }) => ({ x: height - y, y: x });
    case 7:
      return ({ x, y }) => ({ x: height - y, y: width - x });
    case 8:
      return ({ x, y }) => ({ x: y, y: width - x });
    default:
      return (point) => point;
  }
}

/**
 * The regions that a photo marks: MWG (Guidelines for Handling Image Metadata 2.0, 5.9) and IPTC (Photo Metadata Standard
 * 2021.1, Image Region). Both lie in the picture as it is stored (from memory), unless an MWG list says that it was made
 * for the size as seen.
 */
export function readRegions(told: Told, stored: Size, orientation: number): MarkedRegion[] {
  return [...mwgRegions(told, stored, orientation), ...iptcRegions(told, stored, orientation)];
}

function mwgRegions(told: Told, stored: Size, orientation: number): MarkedRegion[] {
  const all = told['mwg-rs']?.['Regions'];
  if (!isRecord(all)) return [];
  const made = isRecord(all['AppliedToDimensions']) ? all['AppliedToDimensions'] : {};
  const isLaid = orientation >= 5 && stored.width !== stored.height;
  const isForSeen = isLaid && Number(made['w']) === stored.height && Number(made['h']) === stored.width;
  const frame = isForSeen ? { width: stored.height, height: stored.width } : stored;
  const orient = orientBy(isForSeen ? 1 : orientation, stored);
  return listOf(all['RegionList']).flatMap((region): MarkedRegion[] => {
    const area = region['Area'];
    if (!isRecord(area)) return [];
    const [x, y, w = 0, h = 0] = ['x', 'y', 'w', 'h'].map((key) => (key in area ? Number(area[key]) : undefined));
    if (x === undefined || y === undefined || ![x, y, w, h].every(Number.isFinite) || w <= 0 || h <= 0) return [];
    const [type] = textsOf(region['Type']);
    const points = corners(x - w / 2, y - h / 2, w, h).map((point) => orient(scaled(point, frame)));
    const about = { names: textsOf(region['Name']), kinds: [], roles: [], ...(type !== undefined && { type }) };
    return [{ standard: 'mwg', shape: 'rectangle', points, ...about }];
  });
}

function iptcRegions(told: Told, stored: Size, orientation: number): MarkedRegion[] {
  const orient = orientBy(orientation, stored);
  return listOf(told['Iptc4xmpExt']?.['ImageRegion']).flatMap((region): MarkedRegion[] => {
    const boundary = region['RegionBoundary'];
    if (!isRecord(boundary)) return [];
    const frame = boundary['rbUnit'] === 'pixel' ? { width: 1, height: 1 } : stored;
    const outline = outlineOf(boundary, frame);
    if (!outline?.points.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))) return [];
    const [id] = textsOf(region['rId']);
    return [
      {
        standard: 'iptc',
        shape: outline.shape,
        points: outline.points.map(orient),
        names: textsOf(region['Name']).slice(0, 1),
        kinds: termsOf(region['rCtype']),
        roles: termsOf(region['rRole']),
        ...(id !== undefined && { id }),
      },
    ];
  });
}

function outlineOf(
  boundary: Readonly<Record<string, unknown>>,
  frame: Size,
): Pick<MarkedRegion, 'shape' | 'points'> | undefined {
  const number = (key: string): number => (key in boundary ? Number(boundary[key]) : NaN);
  switch (boundary['rbShape']) {
    case 'rectangle': {
      const points = corners(number('rbX'), number('rbY'), number('rbW'), number('rbH'));
      return { shape: 'rectangle', points: points.map((point) => scaled(point, frame)) };
    }
    case 'circle': {
      const middle = { x: number('rbX'), y: number('rbY') };
      const points = [middle, { x: middle.x + number('rbRx'), y: middle.y }];
      return { shape: 'circle', points: points.map((point) => scaled(point, frame)) };
    }
    case 'polygon': {
      const vertices = listOf(boundary['rbVertices']).map((vertex) => ({
        x: Number(vertex['rbX']),
        y: Number(vertex['rbY']),
      }));
      return vertices.length >= 2
        ? { shape: 'polygon', points: vertices.map((point) => scaled(point, frame)) }
        : undefined;
    }
    default:
      return undefined;
  }
}

/** Identifiers of a controlled vocabulary. */
function termsOf(value: unknown): string[] {
  return listOf(value).flatMap((term) => textsOf(term['Identifier']));
}

function corners(left: number, top: number, width: number, height: number): Point[] {
  return [
    { x: left, y: top },
    { x: left + width, y: top },
    { x: left + width, y: top + height },
    { x: left, y: top + height },
  ];
}

function scaled({ x, y }: Point, { width, height }: Size): Point {
  return { x: x * width, y: y * height };
}
