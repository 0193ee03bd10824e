/** A paper's two sides in millimetres, the shorter first. */
export interface Paper {
  readonly short: number;
  readonly long: number;
}

const STEPS = 10;

/**
 * ISO 216:2007, "Writing paper and certain classes of printed matter: trimmed sizes": A0 is 841 × 1189 mm (1 m², sides
 * as 1 to √2) and B0 is 1000 × 1414 mm; every next size is the one before with its long side halved, whole millimetres
 * rounded down.
 */
function isoSeries(letter: 'A' | 'B', first: Paper): [string, Paper][] {
  const series: [string, Paper][] = [];
  let paper = first;
  for (let step = 0; step <= STEPS; step++) {
    series.push([`${letter}${step}`, paper]);
    paper = { short: Math.floor(paper.long / 2), long: paper.short };
  }
  return series;
}

/** Photographic papers in whole centimetres (common practice, no source). */
const CENTIMETRES: readonly (readonly [number, number])[] = [
  [9, 13],
  [10, 15],
  [13, 18],
  [15, 20],
  [15, 21],
  [18, 24],
  [20, 20],
  [20, 25],
  [20, 30],
  [24, 30],
  [30, 30],
  [30, 40],
  [30, 45],
  [40, 50],
  [40, 60],
  [50, 50],
  [50, 60],
  [50, 70],
  [60, 80],
  [60, 90],
  [70, 100],
  [80, 120],
];

/** Photographic papers in whole inches of 25.4 mm (common practice, no source). */
const INCHES: readonly (readonly [number, number])[] = [
  [4, 6],
  [5, 5],
  [5, 7],
  [6, 8],
  [8, 8],
  [8, 10],
  [8, 12],
  [10, 10],
  [11, 14],
  [12, 12],
  [12, 16],
  [12, 18],
  [16, 20],
  [16, 24],
  [20, 24],
  [20, 30],
  [24, 36],
  [30, 40],
];

function inUnit(sizes: readonly (readonly [number, number])[], unit: string, millimetres: number): [string, Paper][] {
  return sizes.map(([short, long]) => [
    `${short}x${long}${unit}`,
    { short: short * millimetres, long: long * millimetres },
  ]);
}

/** Papers that have a name, by it: `A3`, `B2`, `13x18cm`, `8x10in`. */
export const PAPERS: ReadonlyMap<string, Paper> = new Map([
  ...isoSeries('A', { short: 841, long: 1189 }),
  ...isoSeries('B', { short: 1000, long: 1414 }),
  ...inUnit(CENTIMETRES, 'cm', 10),
  ...inUnit(INCHES, 'in', 25.4),
]);

export const PAPER_NAMES: readonly string[] = [...PAPERS.keys()];
