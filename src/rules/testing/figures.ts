import type { Person } from '../../people/person.ts';
import { PHOTO, standing, type Standing } from '../../people/testing/standing.ts';

/** The standing figure whose nose has gone to one side of the picture, by so many half distances of the eyes. */
export function turnedHead(towards: 'left' | 'right', options: Standing = {}, by = 0.8): Person {
  const person = standing(options);
  const { nose, left_eye: left, right_eye: right } = person.points;
  if (!nose || !left || !right) return person;
  const half = Math.abs(left.x - right.x) / 2;
  const x = nose.x + (towards === 'left' ? -by : by) * half;
  return { ...person, points: { ...person.points, nose: { ...nose, x } } };
}

/** Half widths of a figure in a skirt, from under the arms to the ankles, in pixels at heights of the test photo. */
const SKIRT = [
  [2450, 400], [3000, 290], [3444, 390], [3900, 520], [3960, 290], [4424, 260], [5408, 200],
] as const; // prettier-ignore

/** The standing figure in a skirt that is widest at its hem, 3900 px from the top; the arms are behind the back. */
export function skirted(): Person {
  const person = standing({ without: ['left_elbow', 'right_elbow', 'left_wrist', 'right_wrist'] });
  const side = (sign: number) =>
    SKIRT.map(([y, half]) => ({ x: (2000 + sign * half) / PHOTO.width, y: y / PHOTO.height }));
  const top = { x: 0.5, y: 1500 / PHOTO.height };
  const sole = { x: 0.5, y: 5564 / PHOTO.height };
  return { ...person, outline: [top, ...side(1), sole, ...side(-1).reverse()] };
}
