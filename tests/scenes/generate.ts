import { effectiveEdges, largestCentred, roundCrop } from '../../src/geometry/crop.ts';
import type { Edges, Size } from '../../src/geometry/shapes.ts';
import { heightOf, rectangleOf, widthOf } from '../../src/geometry/shapes.ts';
import type { Person } from '../../src/people/person.ts';
import type { PointName } from '../../src/people/points.ts';
import type { SceneInput } from '../../src/rules/scene.ts';
import { COMPOSITIONS } from '../../src/rules/scene.ts';
import { randomPerson } from './bodies.ts';
import { Random } from './random.ts';
import { foundPlaces } from '../../src/people/places.ts';

const SHAPES = [2 / 3, 3 / 4, 4 / 5, 1, 5 / 4, 3 / 2, 16 / 9];
const SIDES = [1500, 2000, 3000, 4000, 6000];

/**
 * A scene with one to four people in all sorts of poses, some partly outside the photo; fixed and free shapes, a few
 * turned. The same seed gives the same scene.
 */
export function generatedScene(seed: number): SceneInput {
  const random = new Random(seed * 7919 + 1);
  const photo: Size = { width: random.pick(SIDES), height: random.pick(SIDES) };
  const degrees = random.chance(0.2) ? Math.round(random.between(-400, 400)) / 100 : 0;
  const count = 1 + Math.floor(random.unit() * 4);
  const people = Array.from({ length: count }, (_, index) => {
    const height = photo.height * random.between(0.45, 1.25);
    const x = photo.width * ((index + random.between(0.15, 0.85)) / count);
    const foot = photo.height * random.between(0.1, 0.3) + height * random.between(0.75, 1.05);
    return randomPerson(random, index + 1, photo, { x, y: foot }, height);
  });
  const shape = random.pick(SHAPES);
  const crop = randomCrop(random, largestCentred(photo, degrees, shape));
  return {
    photo,
    degrees,
    crop: effectiveEdges(roundCrop(rectangleOf(crop, photo)), photo, degrees),
    shape: random.chance(0.7) ? shape : undefined,
    composition: random.pick(COMPOSITIONS),
    askedLength: undefined,
    people,
    subjects: undefined,
  };
}

/** Of the same shape, inside. */
function randomCrop(random: Random, within: Edges): Edges {
  const scale = random.chance(0.3) ? 1 : random.between(0.4, 1);
  const width = widthOf(within) * scale;
  const height = heightOf(within) * scale;
  const left = within.left + (widthOf(within) - width) * random.unit();
  const top = within.top + (heightOf(within) - height) * random.unit();
  return { left, top, right: left + width, bottom: top + height };
}

/** The scene as a mirror shows it. */
export function mirrored(scene: SceneInput): SceneInput {
  const { photo, crop } = scene;
  return {
    ...scene,
    degrees: scene.degrees === 0 ? 0 : -scene.degrees,
    crop: { ...crop, left: photo.width - crop.right, right: photo.width - crop.left },
    people: scene.people.map(mirroredPerson),
  };
}

function mirroredPerson(person: Person): Person {
  const [left, top, width, height] = person.box;
  const points: Person['points'] = Object.fromEntries(
    foundPlaces(person.points).map(([name, point]) => [otherSide(name), { ...point, x: 1 - point.x }]),
  );
  return {
    ...person,
    box: [1 - left - width, top, width, height],
    points,
    ...(person.headTop && { headTop: { ...person.headTop, x: 1 - person.headTop.x } }),
    ...(person.outline && { outline: person.outline.map(({ x, y }) => ({ x: 1 - x, y })).reverse() }),
  };
}

function otherSide(name: PointName): PointName {
  const other = name.startsWith('left_') ? name.replace('left_', 'right_') : name.replace('right_', 'left_');
  return other as PointName;
}
