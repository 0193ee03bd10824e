import type { Edges, Point, Size } from '../../geometry/shapes.ts';

/** Room for handles around the picture, in pixels of the page. */
const MARGIN = 14;

/** How the turned picture (pixels of the photo) lies on the page. */
export class View {
  /** Pixels of the page to one of the photo. */
  readonly scale: number;
  readonly photo: Size;
  readonly degrees: number;
  readonly page: Size;

  constructor(photo: Size, degrees: number, page: Size) {
    const radians = (Math.abs(degrees) * Math.PI) / 180;
    const width = photo.width * Math.cos(radians) + photo.height * Math.sin(radians);
    const height = photo.width * Math.sin(radians) + photo.height * Math.cos(radians);
    this.photo = photo;
    this.degrees = degrees;
    this.page = page;
    this.scale = Math.max(0.001, Math.min((page.width - 2 * MARGIN) / width, (page.height - 2 * MARGIN) / height));
  }

  toPage({ x, y }: Point): Point {
    return {
      x: (x - this.photo.width / 2) * this.scale + this.page.width / 2,
      y: (y - this.photo.height / 2) * this.scale + this.page.height / 2,
    };
  }

  edgesOnPage({ left, top, right, bottom }: Edges): Edges {
    const from = this.toPage({ x: left, y: top });
    const to = this.toPage({ x: right, y: bottom });
    return { left: from.x, top: from.y, right: to.x, bottom: to.y };
  }
}
