import type { Point } from '../../geometry/shapes.ts';
import { byId } from '../page/elements.ts';

/** Something that is drawn or placed on the picture; all places are pixels of the stage. */
export interface Tool {
  /** What is to be done now. */
  readonly prompt: string;
  down(at: Point): void;
  move(at: Point, isDown: boolean): void;
  up(at: Point): void;
  key(key: string, isLarge: boolean): boolean;
  draw(): readonly SVGElement[];
  /** It is over, done or not. */
  ended(): void;
}

/** Lies over the picture while a tool is in use, and takes pointer and keys for it. One tool at a time. */
export class Surface {
  readonly #element = byId('surface');
  readonly #prompt = byId('prompt');
  readonly #redraw: () => void;
  #tool: Tool | undefined;
  #before: Element | null = null;

  constructor(redraw: () => void) {
    this.#redraw = redraw;
    let isDown = false;
    const at = (event: PointerEvent): Point => {
      const { left, top } = this.#element.getBoundingClientRect();
      return { x: event.clientX - left, y: event.clientY - top };
    };
    this.#element.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return;
      isDown = true;
      this.#element.setPointerCapture(event.pointerId);
      this.#tool?.down(at(event));
      this.refresh();
    });
    this.#element.addEventListener('pointermove', (event) => {
      this.#tool?.move(at(event), isDown);
      this.#redraw();
    });
    this.#element.addEventListener('pointerup', (event) => {
      if (!isDown) return;
      isDown = false;
      this.#tool?.up(at(event));
      this.refresh();
    });
    this.#element.addEventListener('keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === 'Escape') this.end();
      else if (this.#tool?.key(event.key, event.shiftKey) !== true) return;
      event.preventDefault();
      event.stopPropagation();
      this.refresh();
    });
  }

  get tool(): Tool | undefined {
    return this.#tool;
  }

  begin(tool: Tool): void {
    this.end();
    this.#before = document.activeElement;
    this.#tool = tool;
    this.#element.hidden = false;
    this.refresh();
    this.#element.focus({ preventScroll: true });
  }

  end(): void {
    const tool = this.#tool;
    if (!tool) return;
    this.#tool = undefined;
    this.#element.hidden = true;
    this.refresh();
    tool.ended();
    if (this.#before instanceof HTMLElement) this.#before.focus({ preventScroll: true });
  }

  refresh(): void {
    const words = this.#tool?.prompt ?? '';
    if (this.#prompt.textContent !== words) this.#prompt.textContent = words;
    this.#element.setAttribute('aria-label', words);
    this.#redraw();
  }

  draw(): readonly SVGElement[] {
    return this.#tool?.draw() ?? [];
  }
}
