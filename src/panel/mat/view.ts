import type { Edges, Point, Size } from '../../geometry/shapes.ts';
import { turnPoint, unturnPoint } from '../../geometry/turning.ts';

/** Room for handles around the picture, in pixels of the page. */
const MARGIN = 8;
const SMALLEST_SCALE = 0.001;

/** How the turned picture (pixels of the photo) lies on the page. */
export class View {
  readonly photo: Size;
  readonly degrees: number;
  readonly page: Size;
  /** Pixels of the page to one of the photo. */
  readonly scale: number;
  /** The place of the turned picture that lies in the middle of the page. */
  readonly centre: Point;

  constructor(photo: Size, degrees: number, page: Size, scale: number, centre: Point) {
    this.photo = photo;
    this.degrees = degrees;
    this.page = page;
    this.scale = Math.max(SMALLEST_SCALE, scale);
    this.centre = centre;
  }

  toPage({ x, y }: Point): Point {
    return {
      x: (x - this.centre.x) * this.scale + this.page.width / 2,
      y: (y - this.centre.y) * this.scale + this.page.height / 2,
    };
  }

  fromPage({ x, y }: Point): Point {
    return {
      x: (x - this.page.width / 2) / this.scale + this.centre.x,
      y: (y - this.page.height / 2) / this.scale + this.centre.y,
    };
  }

  /** A place of the page as fractions of the photo, not turned; four decimals. */
  toPhoto(point: Point): Point {
    const { x, y } = unturnPoint(this.fromPage(point), this.photo, this.degrees);
    const short = (value: number): number => Math.round(value * 10_000) / 10_000;
    return { x: short(x / this.photo.width), y: short(y / this.photo.height) };
  }

  /** The inverse of `toPhoto`. */
  fromPhoto({ x, y }: Point): Point {
    return this.toPage(turnPoint({ x: x * this.photo.width, y: y * this.photo.height }, this.photo, this.degrees));
  }

  edgesOnPage({ left, top, right, bottom }: Edges): Edges {
    const from = this.toPage({ x: left, y: top });
    const to = this.toPage({ x: right, y: bottom });
    return { left: from.x, top: from.y, right: to.x, bottom: to.y };
  }
}

/** The scale at which the whole turned picture lies on the page with room around it. */
export function fittingScale(photo: Size, degrees: number, page: Size): number {
  const radians = (Math.abs(degrees) * Math.PI) / 180;
  const width = photo.width * Math.cos(radians) + photo.height * Math.sin(radians);
  const height = photo.width * Math.sin(radians) + photo.height * Math.cos(radians);
  return Math.min((page.width - 2 * MARGIN) / width, (page.height - 2 * MARGIN) / height);
}

export function middleOfPhoto({ width, height }: Size): Point {
  return { x: width / 2, y: height / 2 };
}
