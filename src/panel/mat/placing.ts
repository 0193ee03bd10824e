import type { Point } from '../../geometry/shapes.ts';
import { FEWEST_PLACES, type Place } from '../../people/correct.ts';
import { ARROWS } from './arrows.ts';
import { shape } from './shape.ts';
import { placeWords } from './place-words.ts';
import type { Surface, Tool } from './surface.ts';
import type { View } from './view.ts';

/** Pixels of the page for one arrow key; with Shift ten times that. */
const KEY_STEP = 4;

export type Placed = Readonly<Partial<Record<Place, Point>>>;

/** Asks for places of a body one after the other: a click, or arrow keys and Enter. What is not seen is left out. */
export class Placing implements Tool {
  readonly #surface: Surface;
  readonly #view: () => View | undefined;
  readonly #asked: readonly Place[];
  readonly #fewest: number;
  readonly #done: (placed: Placed) => void;
  readonly #ended: () => void;
  /** Fractions of the photo; undefined: not seen. */
  readonly #placed: (Point | undefined)[] = [];
  #cross: Point | undefined;

  constructor(
    surface: Surface,
    view: () => View | undefined,
    asked: readonly Place[],
    tell: { readonly done: (placed: Placed) => void; readonly ended: () => void },
  ) {
    this.#surface = surface;
    this.#view = view;
    this.#asked = asked;
    this.#fewest = Math.min(FEWEST_PLACES, asked.length);
    this.#done = tell.done;
    this.#ended = tell.ended;
  }

  get prompt(): string {
    const place = this.#asked[this.#placed.length];
    if (!place) return '';
    const left = this.#fewest - this.#count;
    const enough = left > 0 ? `At least ${left} more.` : 'D when that is enough.';
    const others = this.#asked.length > 1 ? ` N when it cannot be seen, Backspace for the one before. ${enough}` : '';
    return `Place the ${placeWords(place)}: click, or arrow keys and Enter.${others} Escape gives up.`;
  }

  get canFinish(): boolean {
    return this.#count >= this.#fewest;
  }

  down(): void {
    // Placed when it is let go, so that a finger can be moved to the exact place.
  }

  move(at: Point): void {
    this.#cross = at;
  }

  up(at: Point): void {
    this.#take(at);
  }

  key(key: string, isLarge: boolean): boolean {
    const arrow = ARROWS[key];
    const page = this.#view()?.page;
    if (arrow && page) {
      const { x, y } = this.#cross ?? { x: page.width / 2, y: page.height / 2 };
      const step = KEY_STEP * (isLarge ? 10 : 1);
      const within = (value: number, most: number): number => Math.min(most, Math.max(0, value));
      this.#cross = { x: within(x + arrow.x * step, page.width), y: within(y + arrow.y * step, page.height) };
    } else if (key === 'Enter' && page) this.#take(this.#cross ?? { x: page.width / 2, y: page.height / 2 });
    else if (key === 'n' || key === 'N') this.skip();
    else if (key === 'd' || key === 'D') this.finish();
    else if (key === 'Backspace') this.back();
    else return false;
    return true;
  }

  skip(): void {
    this.#placed.push(undefined);
    this.#goOn();
  }

  back(): void {
    this.#placed.pop();
    this.#surface.refresh();
  }

  finish(): void {
    if (!this.canFinish) return;
    const places = this.#asked.flatMap((place, index) => {
      const at = this.#placed[index];
      return at ? [[place, at] as const] : [];
    });
    this.#surface.end();
    this.#done(Object.fromEntries(places));
  }

  draw(): SVGElement[] {
    const view = this.#view();
    if (!view) return [];
    const dots = this.#placed.flatMap((place) => {
      const at = place && view.fromPhoto(place);
      return at ? [shape('circle', 'joint', { cx: at.x, cy: at.y, r: 4 })] : [];
    });
    const { width, height } = view.page;
    const { x, y } = this.#cross ?? { x: width / 2, y: height / 2 };
    const across = shape('line', 'drawn', { x1: x - 14, x2: x + 14, y1: y, y2: y });
    const down = shape('line', 'drawn', { x1: x, x2: x, y1: y - 14, y2: y + 14 });
    return [...dots, across, down];
  }

  ended(): void {
    this.#ended();
  }

  get #count(): number {
    return this.#placed.filter((at) => at !== undefined).length;
  }

  #take(at: Point): void {
    const view = this.#view();
    if (!view) return;
    this.#placed.push(view.toPhoto(at));
    this.#goOn();
  }

  #goOn(): void {
    if (this.#placed.length < this.#asked.length) this.#surface.refresh();
    else if (this.canFinish) this.finish();
    else this.#surface.end();
  }
}
