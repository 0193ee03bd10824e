import type { EdgeName, Edges, Size } from '../../src/geometry/shapes.ts';
import type { PhotoPeople, Person } from '../../src/people/person.ts';
import type { BodyPoint } from '../../src/people/points.ts';

/**
 * Says which labelled joints a crop cuts, without a line of the program's own rules: an edge nearer to the joint than
 * 6 % of the longest limb that ends there, the joint within the edge's span. Pixels of the unturned photo.
 */
export interface LabelledCut {
  readonly person: number;
  readonly joint: BodyPoint;
  readonly edge: EdgeName;
}

const BAND = 0.06;
const LIMBS: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  elbow: [['shoulder', 'elbow'], ['elbow', 'wrist']],
  wrist: [['elbow', 'wrist']],
  hip: [['hip', 'knee']],
  knee: [['hip', 'knee'], ['knee', 'ankle']],
  ankle: [['knee', 'ankle']],
}; // prettier-ignore

/** People at least half as tall as the tallest, as DESIGN says. */
export function labelledSubjects(photo: PhotoPeople): Person[] {
  const tallest = Math.max(...photo.people.map((person) => person.box[3]));
  return photo.people.filter((person) => person.box[3] >= tallest / 2);
}

export function labelledCuts(photo: PhotoPeople, crop: Edges, people: readonly Person[]): LabelledCut[] {
  return people.flatMap((person) =>
    (['left', 'right'] as const).flatMap((side) =>
      Object.entries(LIMBS).flatMap(([kind, limbs]) => {
        const joint = `${side}_${kind}` as BodyPoint;
        const at = placeOf(person, joint, photo.size);
        const lengths = limbs.flatMap(([from, to]) => {
          const a = placeOf(person, `${side}_${from}` as BodyPoint, photo.size);
          const b = placeOf(person, `${side}_${to}` as BodyPoint, photo.size);
          return a && b ? [Math.hypot(a.x - b.x, a.y - b.y)] : [];
        });
        if (!at || lengths.length === 0) return [];
        const band = BAND * Math.max(...lengths);
        return (['left', 'top', 'right', 'bottom'] as const).flatMap((edge) => {
          const vertical = edge === 'left' || edge === 'right';
          const far = Math.abs(crop[edge] - (vertical ? at.x : at.y)) >= band - 1e-6;
          const inSpan = vertical ? at.y > crop.top && at.y < crop.bottom : at.x > crop.left && at.x < crop.right;
          return !far && inSpan && !isPhotoEdge(crop, edge, photo.size) ? [{ person: person.id, joint, edge }] : [];
        });
      }),
    ),
  );
}

function placeOf(person: Person, name: BodyPoint, size: Size): { x: number; y: number } | undefined {
  const point = person.points[name];
  return point && { x: point.x * size.width, y: point.y * size.height };
}

function isPhotoEdge(crop: Edges, edge: EdgeName, size: Size): boolean {
  const own = { left: 0, top: 0, right: size.width, bottom: size.height }[edge];
  const side = edge === 'left' || edge === 'right' ? size.width : size.height;
  return Math.abs(crop[edge] - own) <= 0.001 * side;
}

/** Whether the middle between a person's labelled eyes (or the nose) lies in the crop; undefined without a face. */
export function faceIn(photo: PhotoPeople, person: Person, crop: Edges): boolean | undefined {
  const eyes = (['left_eye', 'right_eye', 'nose'] as const).flatMap((name) => placeOf(person, name, photo.size) ?? []);
  if (eyes.length < 2) return undefined;
  return eyes.every(({ x, y }) => x >= crop.left && x <= crop.right && y >= crop.top && y <= crop.bottom);
}
