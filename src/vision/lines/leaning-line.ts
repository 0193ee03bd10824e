import type { Size } from '../../geometry/shapes.ts';
import { uprightChains, type EdgeChain } from './edge-chains.ts';
import { transposed, type Cover, type Plane } from './plane.ts';
import { straightPieces, type StraightPiece } from './straight-pieces.ts';

/**
 * A straight line of the picture. An upright one is seen in a frame whose `along` runs down and `across` to the right; a
 * lying one in that frame turned by a quarter, so that `along` runs to the left and `across` down. Lengths are shares of
 * the picture's longer edge, places are counted from its middle.
 */
export interface LeaningLine {
  readonly along: number;
  readonly across: number;
  readonly length: number;
  /** How far it leans from upright, or from level: radians, clockwise as seen. */
  readonly lean: number;
  /** One standard deviation of `lean`. */
  readonly error: number;
}

export interface LineFamilies {
  readonly upright: readonly LeaningLine[];
  readonly lying: readonly LeaningLine[];
}

/** The shortest line that is used, as a share of the picture's longer edge. */
const LEAST_LENGTH = 0.04;

/** The more or less upright and the more or less level straight lines of a picture, outside what `cover` marks. */
export function findLines(plane: Plane, { data: cover, width }: Cover): LineFamilies {
  const longEdge = Math.max(plane.width, plane.height);
  const least = LEAST_LENGTH * longEdge;
  const uprights = uprightChains(plane, (x, y) => cover[y * width + x] === 1, least);
  const levels = uprightChains(transposed(plane), (y, x) => cover[y * width + x] === 1, least);
  return {
    upright: piecesOf(uprights, least).map((piece) => upright(piece, plane, longEdge)),
    lying: piecesOf(levels, least).map((piece) => lying(piece, plane, longEdge)),
  };
}

function piecesOf(chains: readonly EdgeChain[], least: number): StraightPiece[] {
  return chains.flatMap((chain) => straightPieces(chain, least));
}

function upright({ x, y, slope, length, slopeError }: StraightPiece, size: Size, longEdge: number): LeaningLine {
  return {
    across: (x - size.width / 2) / longEdge,
    along: (y - size.height / 2) / longEdge,
    length: length / longEdge,
    // What goes right on its way down leans to the left.
    lean: -Math.atan(slope),
    error: slopeError / (1 + slope ** 2),
  };
}

/** The piece was found with rows and columns changed over: its x is the picture's y. */
function lying({ x, y, slope, length, slopeError }: StraightPiece, size: Size, longEdge: number): LeaningLine {
  return {
    across: (x - size.height / 2) / longEdge,
    along: -(y - size.width / 2) / longEdge,
    length: length / longEdge,
    lean: Math.atan(slope),
    error: slopeError / (1 + slope ** 2),
  };
}
