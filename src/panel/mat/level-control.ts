import { degreesToLevel, MOST_DEGREES } from '../../geometry/level.ts';
import type { Point } from '../../geometry/shapes.ts';
import { byId } from '../page/elements.ts';
import { shape } from './shape.ts';
import type { Surface, Tool } from './surface.ts';
import type { View } from './view.ts';

/** What the control needs from the mat. */
export interface Levelled {
  view(): View | undefined;
  turn(degrees: number): void;
  letGo(): void;
}

/** Keys that come one after the other are one edit. */
const KEY_PAUSE = 500;
/** Pixels of the page; a shorter line says nothing. */
const SHORTEST_LINE = 20;
/** Degrees; a picture that is turned by less looks the same. */
const LEAST_DIFFERENCE = 0.1;
const PROMPT =
  'Draw a line along something that should be level or upright: the horizon, a rail, a wall. Escape gives up.';

/** Turning the picture: by number, by slider, by a line that is drawn, or as it was measured. */
export class LevelControl {
  readonly #levelled: Levelled;
  readonly #number = byId('level-degrees') as HTMLInputElement;
  readonly #slider = byId('level-slider') as HTMLInputElement;
  readonly #line = byId('level-line') as HTMLButtonElement;
  readonly #measured = byId('level-measured') as HTMLButtonElement;
  #measuredLevel: number | undefined;
  #timer = 0;

  constructor(levelled: Levelled, surface: Surface) {
    this.#levelled = levelled;
    for (const input of [this.#number, this.#slider]) {
      input.addEventListener('input', () => {
        const degrees = input.valueAsNumber;
        if (Number.isFinite(degrees) && Math.abs(degrees) <= MOST_DEGREES) levelled.turn(degrees);
      });
      input.addEventListener('change', () => {
        this.#letGoSoon();
      });
    }
    this.#measured.addEventListener('click', () => {
      if (this.#measuredLevel === undefined) return;
      levelled.turn(this.#measuredLevel);
      levelled.letGo();
    });
    this.#line.addEventListener('click', () => {
      this.#line.setAttribute('aria-pressed', 'true');
      surface.begin(this.#lineTool(surface));
    });
  }

  /** @param whyNot why the picture cannot be turned now; undefined: it can */
  show(degrees: number, measuredLevel: number | undefined, whyNot: string | undefined): void {
    this.#measuredLevel = measuredLevel;
    for (const each of [this.#number, this.#slider, this.#line, this.#measured]) {
      each.disabled = whyNot !== undefined;
      each.title = whyNot ?? '';
    }
    this.#measured.hidden = measuredLevel === undefined || Math.abs(measuredLevel - degrees) < LEAST_DIFFERENCE;
    this.#measured.textContent = `As measured: ${(measuredLevel ?? 0).toFixed(2)}°`;
    this.showDegrees(degrees);
  }

  showDegrees(degrees: number): void {
    if (this.#number.valueAsNumber !== degrees) this.#number.value = String(degrees);
    if (this.#slider.valueAsNumber !== degrees) this.#slider.value = String(degrees);
    this.#slider.setAttribute('aria-valuetext', `${degrees.toFixed(2)} degrees`);
  }

  #letGoSoon(): void {
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => {
      this.#levelled.letGo();
    }, KEY_PAUSE);
  }

  #lineTool(surface: Surface): Tool {
    let start: Point | undefined;
    let end: Point = { x: 0, y: 0 };
    return {
      prompt: PROMPT,
      down: (at) => {
        start = end = at;
      },
      move: (at, isDown) => {
        if (isDown) end = at;
      },
      up: (at) => {
        const from = start;
        const view = this.#levelled.view();
        start = undefined;
        if (!from || !view || Math.hypot(at.x - from.x, at.y - from.y) < SHORTEST_LINE) return;
        surface.end();
        this.#levelled.turn(degreesToLevel(from, at, view.degrees));
        this.#levelled.letGo();
      },
      key: () => false,
      draw: () => (start ? [shape('line', 'drawn', { x1: start.x, y1: start.y, x2: end.x, y2: end.y })] : []),
      ended: () => {
        this.#line.setAttribute('aria-pressed', 'false');
      },
    };
  }
}
