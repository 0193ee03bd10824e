import { insidePhoto } from '../../geometry/crop.ts';
import { excess, type HalfSpace } from '../../geometry/half-space.ts';
import type { EdgeName } from '../../geometry/shapes.ts';
import { unturnPoint } from '../../geometry/turning.ts';
import type { ActiveLimit } from '../active-limit.ts';
import { degreesWords } from '../degrees-words.ts';
import { isBefore, isVertical, rangeAlong } from '../limits.ts';
import type { Remark } from '../rule.ts';
import { defineRule } from '../rule.ts';
import type { Scene } from '../scene.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords } from '../words.ts';

/** Rules that speak where an edge has too little room. */
const OF_ROOM: ReadonlySet<string> = new Set(['joint-cut', 'hand-cut', 'foot-cut', 'edge-clearance', 'headroom']);

/** How far outside the photo a corner may lie, in pixels, before room counts as taken. */
const SLACK = 0.5;

export const straightenCost = defineRule({
  id: 'straighten-cost',
  summary:
    'Straightening took the room that an edge would need; said beside the finding it caused, never as a second one.',
  severity: 'info',
  unit: 'none of its own: those of the finding that it explains',
  weight: WEIGHT.print,
  settings: {},
  messages: {
    took: ({ degrees, edge, needed }, value) =>
      `Straightening by ${degreesWords(Number(degrees))} took ${value} px of room at the ${String(edge)}, where ` +
      `${String(needed)} px are needed.`,
  },
  explain: (scene, { rule, limit }: ActiveLimit): Remark | undefined => {
    const { edge } = limit;
    if (scene.degrees === 0 || !edge || !OF_ROOM.has(rule.id)) return undefined;
    const needed = Math.min(...limit.escapes.map((escape) => outwardMove(escape, edge, scene)));
    const left = Math.min(...insidePhoto(scene.photo, scene.degrees).map((side) => outwardRoom(side, edge, scene)));
    // Where the crop lies outside the photo already, nobody knows how much of the room the turn took.
    if (needed <= left + SLACK || left < -SLACK) return undefined;
    const room = unturnedRoom(scene, edge, limit.person);
    if (needed > room) return undefined;
    return {
      message: 'took',
      arguments: { degrees: scene.degrees, edge: edgeWords(edge), needed: Math.ceil(needed) },
      value: Math.round(room - Math.max(0, left)),
    };
  },
});

/** How far the edge must open before the escape is met, in pixels; infinite when opening does not help. */
function outwardMove(escape: HalfSpace, edge: EdgeName, { crop }: Scene): number {
  const rate = outwardRate(escape, edge);
  return rate < 0 ? excess(escape, crop) / -rate : Infinity;
}

/** How far the edge can open before it leaves the photo by this condition. */
function outwardRoom(condition: HalfSpace, edge: EdgeName, { crop }: Scene): number {
  const rate = outwardRate(condition, edge);
  return rate > 0 ? -excess(condition, crop) / rate : Infinity;
}

function outwardRate(condition: HalfSpace, edge: EdgeName): number {
  return isBefore(edge) ? -condition[edge] : condition[edge];
}

/** From the edge, beside that person, to the photo's own edge before it was turned, in pixels. */
function unturnedRoom({ crop, photo, degrees, counted }: Scene, edge: EdgeName, person: number | undefined): number {
  const [from, to] = rangeAlong(edge, crop);
  const figure = counted.find(({ id }) => id === person);
  const [start, end] = figure ? rangeAlong(edge, figure.extent) : [from, to];
  const along = Math.min(to, Math.max(from, (start + end) / 2));
  const at = isVertical(edge) ? { x: crop[edge], y: along } : { x: along, y: crop[edge] };
  const { x, y } = unturnPoint(at, photo, degrees);
  return { left: x, top: y, right: photo.width - x, bottom: photo.height - y }[edge];
}
