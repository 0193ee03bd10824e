import { describe, expect, it } from 'vitest';
import type { Edges } from '../geometry/shapes.ts';
import { PHOTO, standing } from '../people/testing/standing.ts';
import { sceneOf, type Scene } from '../rules/scene.ts';
import { leftOutWords, peopleLeftOut } from './left-out.ts';

const WHOLE: Edges = { left: 0, top: 0, right: PHOTO.width, bottom: PHOTO.height };
const LEFT_HALF = { x: 0, y: 0, w: 0.45, h: 1 };

/** A couple, side by side. */
function couple(crop: Edges, subjects?: readonly number[]): Scene {
  return sceneOf({
    photo: PHOTO,
    degrees: 0,
    crop,
    shape: undefined,
    composition: 'free',
    askedLength: undefined,
    people: [standing({ x: 1000 }), standing({ id: 2, x: 3000 })],
    subjects,
  });
}

describe('who is left out', () => {
  it('is who stood in the crop and stands beside it now', () => {
    expect(peopleLeftOut(couple(WHOLE), LEFT_HALF)).toEqual([2]);
    expect(peopleLeftOut(couple(WHOLE), { x: 0, y: 0, w: 1, h: 1 })).toEqual([]);
  });

  it('is who was there without a face, too', () => {
    expect(peopleLeftOut(couple({ ...WHOLE, top: 2200 }), LEFT_HALF)).toEqual([2]);
  });

  it('is whose face goes, though the rest of the body stays', () => {
    expect(peopleLeftOut(couple(WHOLE), { x: 0, y: 0.5, w: 1, h: 0.5 })).toEqual([1, 2]);
  });

  it('is nobody who was not in the crop, and nobody who does not count', () => {
    expect(peopleLeftOut(couple({ ...WHOLE, right: 1800 }), LEFT_HALF)).toEqual([]);
    expect(peopleLeftOut(couple(WHOLE, [1]), LEFT_HALF)).toEqual([]);
  });

  it('is named by number', () => {
    expect(leftOutWords([2])).toBe('leaves out person 2');
    expect(leftOutWords([1, 3])).toBe('leaves out people 1 and 3');
  });
});
