import type { Edges, Point, Size } from '../../../src/geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from '../../../src/people/person.ts';
import { BODY_POINTS, type PointName } from '../../../src/people/points.ts';
import { cocoPhotos, demoPhotos, type LabelledPerson, type LabelledPhoto } from './labels.ts';

/** The COCO photographs' body points as people files say them; what is only known to be there counts as labelled too. */
export function cocoPeople(): PhotoPeople[] {
  return cocoPhotos().map(labelledPeopleOf);
}

/** The rendered photos' labels as people files say them: every point, also beyond the frame. */
export function demoPeople(): PhotoPeople[] {
  return demoPhotos().map(labelledPeopleOf);
}

/** The same of one photo, whichever it is. */
export function labelledPeopleOf(photo: LabelledPhoto): PhotoPeople {
  const hasExactLabels = photo.people.some(({ maskRuns }) => maskRuns !== undefined);
  return hasExactLabels ? peopleOf(photo) : peopleOf(photo, BODY_POINTS);
}

function peopleOf({ name, size, people }: LabelledPhoto, wanted?: readonly PointName[]): PhotoPeople {
  return { photo: name, size, people: people.map((person) => personOf(person, size, wanted)) };
}

/** Somebody's body points, as a people file of a picture that shows only the frame says them. */
export function labelledPerson(labelled: LabelledPerson, frame: Edges): Person {
  const shift = (point: Point): Point => ({ x: point.x - frame.left, y: point.y - frame.top });
  const everywhere = [...labelled.everywhere].map(([name, point]) => [name, shift(point)] as const);
  const [left, top, width, height] = labelled.box;
  const right = Math.min(left + width, frame.right);
  const bottom = Math.min(top + height, frame.bottom);
  const corner = { x: Math.max(left, frame.left), y: Math.max(top, frame.top) };
  const shown = shift(corner);
  return personOf(
    { id: labelled.id, everywhere: new Map(everywhere), box: [shown.x, shown.y, right - corner.x, bottom - corner.y] },
    { width: frame.right - frame.left, height: frame.bottom - frame.top },
    BODY_POINTS,
  );
}

type Labels = Pick<LabelledPerson, 'id' | 'box' | 'everywhere' | 'headTopEverywhere'>;

function personOf(labelled: Labels, size: Size, wanted: readonly PointName[] | undefined): Person {
  const { id, box, everywhere, headTopEverywhere } = labelled;
  const points: Partial<Record<PointName, MeasuredPoint>> = {};
  for (const [name, point] of everywhere) {
    if (wanted === undefined || wanted.includes(name)) points[name] = certain(point, size);
  }
  return {
    id,
    source: 'hand',
    box: [box[0] / size.width, box[1] / size.height, box[2] / size.width, box[3] / size.height],
    points,
    ...(headTopEverywhere && { headTop: certain(headTopEverywhere, size) }),
  };
}

function certain({ x, y }: Point, { width, height }: Size): MeasuredPoint {
  return { x: x / width, y: y / height, confidence: 1 };
}
