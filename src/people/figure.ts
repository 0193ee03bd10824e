import { boxAround } from '../geometry/points.ts';
import type { Edges, Point, Size } from '../geometry/shapes.ts';
import { turning } from '../geometry/turning.ts';
import { POSSIBLE } from './confidence.ts';
import { bodyLines, type BodyLines } from './body-lines.ts';
import { eachPlace, type MutablePlaces, type PlaceChange } from './places.ts';
import type { MeasuredPoint, Person, Places } from './person.ts';
import { isHandPoint } from './points.ts';
import { footRegion, handRegion, type Region } from './regions.ts';
import { faceOf, type Face } from './face.ts';
import { foundJoints, type FoundJoint } from './found-joints.ts';
import { foundParts, type FoundPart } from './found-parts.ts';

/** A person placed in the turned picture, with what the rules ask about a body. Everything in pixels of it. */
export interface Figure {
  readonly id: number;
  readonly source: 'model' | 'hand';
  /** The photo's own edges where the picture is not turned. */
  readonly photoEdges: Edges | undefined;
  /** Points that are sure enough to speak about (`POSSIBLE` and above). */
  readonly points: Places;
  readonly headTop: MeasuredPoint | undefined;
  readonly face: Face | undefined;
  readonly joints: readonly FoundJoint[];
  readonly parts: readonly FoundPart[];
  readonly hands: readonly Region[];
  readonly feet: readonly Region[];
  /** Corners of the outline, closed; undefined when it was not measured. */
  readonly outline: readonly OutlineCorner[] | undefined;
  /** Corners of the gaps in it, each closed. */
  readonly gaps: readonly (readonly Point[])[];
  /** The box around everything known of the person. */
  readonly extent: Edges;
  /** Height of the whole person in the picture, seen or not. */
  readonly height: number;
  readonly lines: BodyLines;
}

/** A corner of the outline; `cutByPhoto` where the photo's own edge ends the person. */
export interface OutlineCorner extends Point {
  readonly cutByPhoto: boolean;
}

/** An outline corner within this fraction of the photo's side is where the photo cut the person. */
const CUT_BY_PHOTO = 0.004;

/** Places a measured person (fractions of the oriented photo) in the picture turned by `degrees`. */
export function figureOf(person: Person, photo: Size, degrees: number): Figure {
  const turn = turning(photo, degrees);
  const toPixels = ({ x, y }: Point): Point => turn({ x: x * photo.width, y: y * photo.height });
  const place = (point: MeasuredPoint | undefined): MeasuredPoint | undefined => {
    if (!point || point.confidence < POSSIBLE) return undefined;
    const { x, y } = toPixels(point);
    return { x, y, confidence: point.confidence };
  };

  const points = eachPlace(person.points, place);
  const hasFingers = addHandPlaces(points, person.points, place);
  const [left, top, width, height] = person.box;
  const corners = [
    { x: left, y: top },
    { x: left + width, y: top },
    { x: left, y: top + height },
    { x: left + width, y: top + height },
  ].map(toPixels);
  const outline = person.outline?.map((corner): OutlineCorner => {
    const { x, y } = toPixels(corner);
    const toEdge = Math.min(corner.x, 1 - corner.x, corner.y, 1 - corner.y);
    return { x, y, cutByPhoto: toEdge < CUT_BY_PHOTO };
  });
  const extent = boxAround(outline && outline.length > 2 ? outline : corners);
  const lowest = outline && outline.length > 2 ? extent.bottom : undefined;
  const headTop = place(person.headTop);
  const lines = bodyLines(points, headTop, outline, extent);
  return {
    id: person.id,
    source: person.source,
    photoEdges: degrees === 0 ? { left: 0, top: 0, right: photo.width, bottom: photo.height } : undefined,
    points,
    headTop: headTop ?? lines.estimatedHeadTop,
    face: faceOf(points, place(person.chin)),
    joints: foundJoints(points),
    parts: foundParts(points),
    hands: found(handRegion(points, 'left', hasFingers), handRegion(points, 'right', hasFingers)),
    feet: found(footRegion(points, 'left', lowest), footRegion(points, 'right', lowest)),
    outline,
    gaps: person.gaps?.map((gap) => gap.map(toPixels)) ?? [],
    extent,
    height: lines.sole - lines.headTop,
    lines,
  };
}

/** Whether there was any. */
function addHandPlaces(to: MutablePlaces, places: Places, change: PlaceChange): boolean {
  let hasFingers = false;
  for (const name in places) {
    if (!isHandPoint(name)) continue;
    const placed = change(places[name]);
    if (!placed) continue;
    to[name] = placed;
    hasFingers = true;
  }
  return hasFingers;
}

function found(left: Region | undefined, right: Region | undefined): Region[] {
  if (left) return right ? [left, right] : [left];
  return right ? [right] : [];
}

/** Whether any part of the person can be seen in the crop. */
export function isInCrop(figure: Figure, crop: Edges): boolean {
  const { extent } = figure;
  return extent.left < crop.right && extent.right > crop.left && extent.top < crop.bottom && extent.bottom > crop.top;
}

/** Whether the person's face is in the crop: the eyes are, or the middle of the face. */
export function isFaceInCrop(figure: Figure, crop: Edges): boolean {
  const { face } = figure;
  return face !== undefined && (isWithin(face.eyes, crop) || isWithin(face.middle, crop));
}

function isWithin({ x, y }: Point, crop: Edges): boolean {
  return x > crop.left && x < crop.right && y > crop.top && y < crop.bottom;
}
