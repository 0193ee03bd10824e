import type { EdgeName, Edges } from './shapes.ts';

/**
 * A linear condition on a crop's four edge lines, in pixels of the turned picture:
 * `left·l + top·t + right·r + bottom·b ≤ atMost`.
 */
export interface HalfSpace {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly atMost: number;
}

/** By how much `edges` miss the condition; zero or less when they meet it. In pixels when the coefficients are ±1. */
export function excess(condition: HalfSpace, edges: Edges): number {
  return (
    condition.left * edges.left +
    condition.top * edges.top +
    condition.right * edges.right +
    condition.bottom * edges.bottom -
    condition.atMost
  );
}

/** The edge line lies at or before (left of, above) `value` pixels. */
export function atMost(edge: EdgeName, value: number): HalfSpace {
  return onEdge(edge, 1, value);
}

/** The edge line lies at or after (right of, below) `value` pixels. */
export function atLeast(edge: EdgeName, value: number): HalfSpace {
  return onEdge(edge, -1, -value);
}

/** `coefficient · edge ≤ bound`. Written out: a spread with a computed key is a hundred times slower. */
function onEdge(edge: EdgeName, coefficient: number, bound: number): HalfSpace {
  return {
    left: edge === 'left' ? coefficient : 0,
    top: edge === 'top' ? coefficient : 0,
    right: edge === 'right' ? coefficient : 0,
    bottom: edge === 'bottom' ? coefficient : 0,
    atMost: bound,
  };
}

/** `coefficient · edge + otherCoefficient · other ≤ bound`, for two different edges. */
export function onTwoEdges(
  edge: EdgeName,
  coefficient: number,
  other: EdgeName,
  otherCoefficient: number,
  bound: number,
): HalfSpace {
  const of = (name: EdgeName) => (name === edge ? coefficient : name === other ? otherCoefficient : 0);
  return { left: of('left'), top: of('top'), right: of('right'), bottom: of('bottom'), atMost: bound };
}
