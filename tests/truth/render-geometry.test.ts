import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Edges, Point, Size } from '../../src/geometry/shapes.ts';
import { turnPoint } from '../../src/geometry/turning.ts';
import type { FileFormat } from '../../src/photos/render/encode.ts';
import { renderPicture } from '../../src/photos/render/render.ts';
import { folderWith } from '../cli/workspace.ts';
import { chart, greyOf, middleOfDot, ORIENTATIONS, type Dot } from './support/chart.ts';
import { PLAIN_FILE } from './support/plain-file.ts';

const PHOTO: Size = { width: 600, height: 440 };
const CROP: Edges = { left: 91.4, top: 70.3, right: 503.9, bottom: 345.3 };
const RADIUS = 4;

/** One dot near each corner of the crop, and two in the middle, where the turned picture shows them. */
function dotsFor(degrees: number): Dot[] {
  const { left, top, right, bottom } = CROP;
  const inset = 14;
  const places = [
    { x: left + inset, y: top + inset },
    { x: right - inset, y: top + inset },
    { x: left + inset, y: bottom - inset },
    { x: right - inset, y: bottom - inset },
    { x: 270, y: 190 },
    { x: 351.3, y: 231.6 },
  ];
  return places.map((place) => ({ ...turnPoint(place, PHOTO, -degrees), radius: RADIUS }));
}

/** DESIGN, "Coordinates": turned clockwise about the photo's centre, cut, and made to fit; independent of the product. */
function expectedPlace(dot: Point, degrees: number, file: Size): Point {
  const radians = (degrees * Math.PI) / 180;
  const x = dot.x - PHOTO.width / 2;
  const y = dot.y - PHOTO.height / 2;
  const turnedX = x * Math.cos(radians) - y * Math.sin(radians) + PHOTO.width / 2;
  const turnedY = x * Math.sin(radians) + y * Math.cos(radians) + PHOTO.height / 2;
  return {
    x: ((turnedX - CROP.left) / (CROP.right - CROP.left)) * file.width,
    y: ((turnedY - CROP.top) / (CROP.bottom - CROP.top)) * file.height,
  };
}

const folder = folderWith({});

async function farthest(
  degrees: number,
  orientation: number,
  file: Size,
  options = PLAIN_FILE,
  from: FileFormat = 'png',
) {
  const dots = dotsFor(degrees);
  const path = join(folder, `${degrees}-${orientation}-${file.width}.${from}`);
  const stored = chart(PHOTO, dots, orientation).toFormat(from, from === 'png' ? {} : { quality: 98 });
  writeFileSync(path, await stored.toBuffer());
  const cut = { degrees, crop: CROP, trimmed: file, bleed: 0 };
  const { bytes, size } = await renderPicture(path, (photo) => ({ ...cut, photo }), options);
  expect(size).toEqual(file);
  const picture = await greyOf(bytes);
  const scale = file.width / (CROP.right - CROP.left);
  const distances = dots.map((dot) => {
    const place = expectedPlace(dot, degrees, file);
    const found = middleOfDot(picture, place, 3.2 * RADIUS * scale);
    return Math.hypot(found.x - place.x, found.y - place.y);
  });
  return Math.max(...distances);
}

const SIZES: readonly Size[] = [
  { width: 413, height: 275 },
  { width: 240, height: 160 },
  { width: 900, height: 600 },
];
const DEGREES = [-10, -7.31, -3.3, -1.4, -0.05, 0, 0.4, 2, 5.55, 10];

describe.each(SIZES)('a file of $width × $height pixels', (file) => {
  test.each(DEGREES)('straightened by %f degrees: every dot within 1 px', async (degrees) => {
    expect(await farthest(degrees, 1, file)).toBeLessThan(1);
  });
});

describe.each(ORIENTATIONS)('EXIF orientation %i', (orientation) => {
  test.each([0, -4.2, 6.5])('straightened by %f degrees: every dot within 1 px', async (degrees) => {
    expect(await farthest(degrees, orientation, { width: 413, height: 275 })).toBeLessThan(1);
  });
});

describe.each(['jpeg', 'png', 'tiff', 'webp', 'avif'] as const)('%s', (format) => {
  test.each([0, 2.5])('into it, straightened by %f degrees', async (degrees) => {
    const options = { ...PLAIN_FILE, format, quality: 95 };
    expect(await farthest(degrees, 1, { width: 413, height: 275 }, options)).toBeLessThan(1);
  });

  test.each([0, 2.5])('out of it, straightened by %f degrees', async (degrees) => {
    expect(await farthest(degrees, 1, { width: 413, height: 275 }, PLAIN_FILE, format)).toBeLessThan(1);
  });
});

test('straightened pictures land far nearer than a pixel: nothing is rounded to whole pixels', async () => {
  for (const degrees of [-8.8, 0.7, 3.1]) {
    expect(await farthest(degrees, 6, { width: 413, height: 275 })).toBeLessThan(0.1);
  }
});
