import type { Point, Size } from '../../../src/geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from '../../../src/people/person.ts';
import { BODY_POINTS, type PointName } from '../../../src/people/points.ts';
import { cocoPhotos, demoPhotos, type LabelledPerson, type LabelledPhoto } from './labels.ts';

/** The COCO photographs' body points as people files say them; what is only known to be there counts as labelled too. */
export function cocoPeople(): PhotoPeople[] {
  return cocoPhotos().map((photo) => peopleOf(photo, BODY_POINTS));
}

/** The rendered photos' labels as people files say them: every point, also beyond the frame. */
export function demoPeople(): PhotoPeople[] {
  return demoPhotos().map((photo) => peopleOf(photo));
}

function peopleOf({ name, size, people }: LabelledPhoto, wanted?: readonly PointName[]): PhotoPeople {
  return { photo: name, size, people: people.map((person) => personOf(person, size, wanted)) };
}

function personOf(labelled: LabelledPerson, size: Size, wanted: readonly PointName[] | undefined): Person {
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
