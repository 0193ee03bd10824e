import { atLeast, atMost, type HalfSpace } from '../../geometry/half-space.ts';
import { heightOf, shortSideOf, widthOf, type EdgeName, type Point } from '../../geometry/shapes.ts';
import { FIRM } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { protrusions } from '../../people/protrusions.ts';
import {
  across,
  along,
  bodyOut,
  CROP_HEIGHT,
  CROP_WIDTH,
  isBefore,
  minus,
  negative,
  notPositive,
  outOfSpan,
  past,
} from '../limits.ts';
import type { Limit, Linear } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords } from '../words.ts';

/** A top that is this near to the head (share of the person's height) is the head: headroom speaks about it. */
const HEAD_REACH = 0.12;
/** Where the photo itself ends, this share of the room still looks like room (common practice, no source). */
const ENOUGH_OF_ROOM = 1 / 3;

export const edgeClearance = defineRule({
  id: 'edge-clearance',
  summary: 'A body comes too near to an edge, or is grazed by it: clearly in, or clearly out.',
  severity: 'warning',
  unit: 'percent of the crop’s short side: room between body and edge, negative when cut (value), the least (limit)',
  weight: WEIGHT.edge,
  settings: {
    room: { default: 2.5, minimum: 0, maximum: 30, unit: '%', help: 'Room between body and edge, of the short side.' },
    feet: { default: 3, minimum: 0, maximum: 30, unit: '%', help: 'Room under the feet, of the short side.' },
    graze: { default: 4, minimum: 0, maximum: 30, unit: '%', help: 'A cut less deep than this is a graze.' },
  },
  messages: {
    near: ({ edge, person, limit }) =>
      `The ${String(edge)} comes within a hair of person ${String(person)}, or grazes them. Leave at least ${String(limit)} % ` +
      'of the short side, or cut clearly.',
    feet: ({ person, limit }) =>
      `Too little room under the feet of person ${String(person)}. Leave at least ${String(limit)} % of the short side, or ` +
      'come up to mid-thigh.',
  },
  bodyLimits: (figure, settings, edges, at) => {
    const { room, feet, graze } = settings;
    const reach = at ? (Math.max(room, feet, graze) / 100) * Math.max(widthOf(at), heightOf(at)) : Infinity;
    return edges.flatMap((edge) =>
      protrusions(
        figure,
        edge,
        (point) =>
          !(at && Math.abs(across(edge, point) - at[edge]) > reach) && !(edge === 'top' && isHead(figure, point)),
      ).map((point) => clearanceLimit(figure, edge, point, settings)),
    );
  },
  bodyReach: (_, { room, feet }, crop) => (Math.max(room, feet) / 100) * Math.max(widthOf(crop), heightOf(crop)),
});

interface Settings {
  readonly room: number;
  readonly feet: number;
  readonly graze: number;
}

function clearanceLimit(figure: Figure, edge: EdgeName, point: Point, { room: usual, feet, graze }: Settings): Limit {
  const isFoot = edge === 'bottom' && point.y > figure.lines.ankle;
  const room = isFoot ? feet : usual;
  const place = across(edge, point);
  return {
    message: isFoot ? 'feet' : 'near',
    arguments: { edge: edgeWords(edge), person: figure.id, limit: room },
    escapes: [
      ...clearlyIn(edge, place, room / 100),
      ...clearlyOut(edge, place, graze / 100),
      ...outOfSpan(edge, along(edge, point), along(edge, point)),
      bodyOut(edge, figure),
      ...allThereIs(figure, edge, place, room / 100),
    ],
    deeper: measuringError(figure, 'outline', FIRM) / 2,
    edge,
    person: figure.id,
    measure: { of: roomAt(edge, place), per: 'short-side' },
    bound: room,
  };
}

function isHead(figure: Figure, point: Point): boolean {
  const { headTop } = figure;
  if (!headTop) return false;
  const reach = HEAD_REACH * figure.height;
  return Math.abs(point.x - headTop.x) < reach && Math.abs(point.y - headTop.y) < reach;
}

/** Room between the place and the edge, negative when the edge has passed it. */
function roomAt(edge: EdgeName, place: number): Linear {
  const beyond = past(edge, place);
  return isBefore(edge) ? negative(beyond) : beyond;
}

/** On the photo's own edge part of the room is enough: there is no more to give. */
function allThereIs({ photoEdges }: Figure, edge: EdgeName, place: number, share: number): HalfSpace[] {
  if (!photoEdges) return [];
  const own = photoEdges[edge];
  const room = isBefore(edge) ? place - own : own - place;
  if (room < ENOUGH_OF_ROOM * share * shortSideOf(photoEdges)) return [];
  return [isBefore(edge) ? atMost(edge, own) : atLeast(edge, own)];
}

/** The short side is the lesser of width and height: enough for one of them is enough. */
function clearlyIn(edge: EdgeName, place: number, share: number): HalfSpace[] {
  const missing = negative(roomAt(edge, place));
  return [CROP_WIDTH, CROP_HEIGHT].map((side) => notPositive(minus(missing, side, -share)));
}

function clearlyOut(edge: EdgeName, place: number, share: number): HalfSpace[] {
  const room = roomAt(edge, place);
  return [CROP_WIDTH, CROP_HEIGHT].map((side) => notPositive(minus(room, side, -share)));
}
