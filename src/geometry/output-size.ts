import { PAPERS } from './paper-sizes.ts';
import type { Size } from './shapes.ts';

/** A distance on paper or in pixels. */
export interface Distance {
  readonly amount: number;
  readonly unit: 'px' | 'mm' | 'cm' | 'in';
}

/** Pixels per inch of paper where nobody says (common practice, no source). */
export const DEFAULT_PPI = 300;

const MILLIMETRES = { mm: 1, cm: 10, in: 25.4 } as const;

/** In pixels, not rounded. */
export function pixelsOf({ amount, unit }: Distance, ppi: number): number {
  return unit === 'px' ? amount : (amount * MILLIMETRES[unit] * ppi) / MILLIMETRES.in;
}

/** How large an output is, as it was asked for; neither side nor a paper: as many pixels as the crop has. */
export interface AskedSize {
  readonly paper?: string | undefined;
  readonly long?: Distance | undefined;
  readonly short?: Distance | undefined;
  readonly ppi?: number | undefined;
  readonly bleed?: Distance | undefined;
  readonly safe?: Distance | undefined;
}

/** How large an output's file is, in whole pixels. */
export interface OutputSize {
  /** The trimmed picture. */
  readonly trimmed: Size;
  /** Picture beyond the trimmed edge, on each side. */
  readonly bleed: number;
  /** How far inside the trimmed edge nothing important may be. */
  readonly safe: number;
  /** The long side of the trimmed picture on paper, in inches; absent when nobody speaks of paper. */
  readonly inches?: number;
  readonly ppi: number;
}

/**
 * The pixels of an output for a crop of this size (pixels of the photo) and this shape.
 * @param shape width over height of the trimmed picture
 */
export function outputSize(asked: AskedSize, crop: Size, shape: number): OutputSize {
  const ppi = asked.ppi ?? DEFAULT_PPI;
  const long = longSide(asked, shape, ppi) ?? Math.max(crop.width, crop.height);
  const trimmed =
    shape <= 1
      ? { width: atLeastOne(long * shape), height: atLeastOne(long) }
      : { width: atLeastOne(long), height: atLeastOne(long / shape) };
  const extra = (distance: Distance | undefined): number => (distance ? Math.round(pixelsOf(distance, ppi)) : 0);
  return {
    trimmed,
    bleed: extra(asked.bleed),
    safe: extra(asked.safe),
    ...(isOnPaper(asked) && { inches: long / ppi }),
    ppi,
  };
}

/** Not rounded, so that the sides keep their shape. Of two sides that were asked for the one that makes it smaller. */
function longSide({ paper, long, short }: AskedSize, shape: number, ppi: number): number | undefined {
  const named = paper === undefined ? undefined : PAPERS.get(paper);
  if (named) return (named.long * ppi) / MILLIMETRES.in;
  const stretch = Math.max(shape, 1 / shape);
  const asked = [long && pixelsOf(long, ppi), short && pixelsOf(short, ppi) * stretch];
  const sides = asked.filter((side) => side !== undefined);
  return sides.length > 0 ? Math.min(...sides) : undefined;
}

/** Whether the output is meant for paper: a size in pixels alone is not. */
function isOnPaper({ paper, long, short, ppi }: AskedSize): boolean {
  if (paper !== undefined) return true;
  const side = long ?? short;
  return side !== undefined && (side.unit !== 'px' || ppi !== undefined);
}

function atLeastOne(pixels: number): number {
  return Math.max(1, Math.round(pixels));
}
