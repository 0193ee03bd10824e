import type { EdgeName, Edges } from '../geometry/shapes.ts';
import { EDGE_NAMES, heightOf, widthOf } from '../geometry/shapes.ts';
import { foundLength } from '../people/length-spans.ts';
import { LENGTH_WORDS, rungOf } from '../people/lengths.ts';
import type { Scene } from '../rules/scene.ts';
import { edgeWords } from '../rules/words.ts';

/** What moving the crop there is, for a photographer: "Come up to three-quarter length, 212 px tighter". */
export function titleOf(scene: Scene, edges: Edges, kind: 'nearest' | 'tighter' | 'wider', isClean: boolean): string {
  const moved = movedWords(scene.crop, edges);
  const before = scene.tallest && foundLength(scene.tallest, scene.crop);
  const after = scene.tallest && foundLength(scene.tallest, edges);
  switch (kind) {
    case 'nearest': {
      const isCloser = before && after && rungOf(after) > rungOf(before);
      const cost = isCloser ? `, ${LENGTH_WORDS[after]}` : '';
      return isClean ? `Nearest clean crop${cost}: ${moved}` : `Nearest crop without this${cost}: ${moved}`;
    }
    case 'tighter':
      if (!after || after === before) return `Come in tighter: ${moved}`;
      return `Come up to ${LENGTH_WORDS[after]}, ${sizeWords(scene.crop, edges)}`;
    case 'wider': {
      if (!after || after === before) return `Open: ${moved}`;
      const to = after === 'full-length' ? 'below the feet' : LENGTH_WORDS[after];
      return `Open to ${to}, ${sizeWords(scene.crop, edges)}`;
    }
  }
}

/** The change of the side that changed most: "212 px tighter". */
export function sizeWords(before: Edges, after: Edges): string {
  const changes = [widthOf(after) - widthOf(before), heightOf(after) - heightOf(before)];
  const most = changes.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  return `${Math.round(Math.abs(most))} px ${most < 0 ? 'tighter' : 'wider'}`;
}

/** The one or two edges that move most: "lower edge 38 px up, left edge 12 px right". */
export function movedWords(before: Edges, after: Edges): string {
  const moves = EDGE_NAMES.map((edge) => ({ edge, by: Math.round(after[edge] - before[edge]) }))
    .filter(({ by }) => by !== 0)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .slice(0, 2);
  if (moves.length === 0) return 'by less than a pixel';
  return moves.map(({ edge, by }) => `${edgeWords(edge)} ${Math.abs(by)} px ${directionOf(edge, by)}`).join(', ');
}

function directionOf(edge: EdgeName, by: number): string {
  if (edge === 'left' || edge === 'right') return by < 0 ? 'left' : 'right';
  return by < 0 ? 'up' : 'down';
}

/** "come up to half length" where another crop of the same frame, turned, shows less of the tallest subject. */
export function arrivalWords(before: Scene, after: Scene, edges: Edges): string | undefined {
  const from = before.tallest && foundLength(before.tallest, before.crop);
  const to = after.tallest && foundLength(after.tallest, edges);
  if (!from || !to || rungOf(to) <= rungOf(from)) return undefined;
  return `come up to ${LENGTH_WORDS[to]}`;
}
