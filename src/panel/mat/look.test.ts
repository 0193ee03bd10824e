import { expect, it } from 'vitest';
import { closeLook } from './look.ts';
import { fittingScale, middleOfPhoto, View } from './view.ts';

const PHOTO = { width: 4000, height: 6000 };
const PAGE = { width: 800, height: 600 };

it('the fitted photo is sharp enough as a whole', () => {
  const view = new View(PHOTO, 0, PAGE, fittingScale(PHOTO, 0, PAGE), middleOfPhoto(PHOTO));
  expect(closeLook(view, 1600, 2)).toBeUndefined();
});

it('at one to one only what the page shows is asked for, with all the pixels that it has', () => {
  const view = new View(PHOTO, 0, PAGE, 1, middleOfPhoto(PHOTO));
  const look = closeLook(view, 1600, 1)!;
  expect(look.region.w * PHOTO.width).toBeGreaterThanOrEqual(PAGE.width);
  expect(look.region.w).toBeLessThan(0.4);
  expect(look.longEdge).toBe(Math.ceil(Math.max(look.region.w * PHOTO.width, look.region.h * PHOTO.height)));
});

it('never asks for more than the photo has, nor for what lies beside it', () => {
  const turned = new View(PHOTO, 30, PAGE, 3, { x: 0, y: 0 });
  const look = closeLook(turned, 1600, 2);
  if (look) {
    expect(look.region.x).toBeGreaterThanOrEqual(0);
    expect(look.region.x + look.region.w).toBeLessThanOrEqual(1);
    expect(look.longEdge).toBeLessThanOrEqual(Math.ceil(Math.max(look.region.w * 4000, look.region.h * 6000)));
  }
  expect(closeLook(new View(PHOTO, 0, PAGE, 3, { x: -9000, y: 0 }), 1600, 1)).toBeUndefined();
});

it('a place of the page and its fractions of the photo are the same place', () => {
  const view = new View(PHOTO, -7, PAGE, 0.3, { x: 1500, y: 3500 });
  const there = view.toPhoto({ x: 123, y: 456 });
  const back = view.fromPhoto(there);
  expect(back.x).toBeCloseTo(123, 0);
  expect(back.y).toBeCloseTo(456, 0);
});
