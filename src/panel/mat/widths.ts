import { narrowPlaces, widePlaces } from '../../people/narrow-places.ts';
import type { Figure } from '../../people/figure.ts';
import { profilePolygon, widthProfile, type Slice } from '../../people/width-profile.ts';
import type { Configuration } from '../../rules/configuration.ts';
import type { Scene } from '../../rules/scene.ts';
import { polygon, shape } from './shape.ts';
import type { View } from './view.ts';

/** Between a line and the word beside it, in pixels of the page. */
const BESIDE = 6;
/** Two wide places nearer than this are one, as a share of the person's height. */
const ONE = 0.05;

/**
 * How wide the outline of each subject is, from under the arms to the ankles, with lines across where it is narrower, or
 * wider, than what is near: what the rule narrow-place speaks from. Nothing for somebody without an outline.
 */
export function widthMap({ counted }: Scene, view: View, configuration: Configuration): SVGElement[] {
  const narrower = (configuration.get('narrow-place')?.settings['narrower'] ?? 0) / 100;
  return counted.flatMap((figure) => widthsOf(figure, view, narrower));
}

function widthsOf(figure: Figure, view: View, narrower: number): SVGElement[] {
  const profile = widthProfile(figure);
  if (profile.length < 2) return [];
  const around = profilePolygon(profile).map((corner) => view.toPage(corner));
  const narrow = narrowPlaces(profile, figure.height, narrower);
  const wide = apart(
    widePlaces(profile, figure.height, narrower).map(({ from, to }) => (from + to) / 2),
    figure.height,
  );
  return [
    polygon('widths', around),
    ...narrow.flatMap((y) => lineAcross('narrow', y, profile, view)),
    ...wide.flatMap((y) => lineAcross('wide', y, profile, view)),
  ];
}

/** Places that are one to the eye are drawn once. */
function apart(heights: readonly number[], height: number): number[] {
  return heights.filter((y, index) => heights.slice(0, index).every((other) => Math.abs(other - y) > ONE * height));
}

function lineAcross(word: 'narrow' | 'wide', y: number, profile: readonly Slice[], view: View): SVGElement[] {
  const nearest = profile.reduce((best, slice) => (Math.abs(slice.y - y) < Math.abs(best.y - y) ? slice : best));
  const [from, to] = [nearest.left, nearest.right].map((x) => view.toPage({ x, y }));
  const line = shape('line', `width ${word}`, { x1: from!.x, y1: from!.y, x2: to!.x, y2: to!.y });
  const text = shape('text', 'width-word', { x: to!.x + BESIDE, y: to!.y });
  text.textContent = word;
  return [line, text];
}
