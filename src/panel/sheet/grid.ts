import type { SheetFrame } from '../sheet-messages.ts';
import { drawCell } from './cell.ts';
import { element } from '../page/elements.ts';
import { heightOfAll, layOut, placeOf, scrollTo, windowOf, type GridLayout, type Stretch } from './virtual-window.ts';

/** Of a row, beside the picture and the lines of text, in pixels of the page: the space around. */
const SPACE = 27;
const LINES = 4;
const SPARE_ROWS = 1;
/** A quick scroll past a thousand frames asks for no picture on its way. */
const REST = 80;

export interface GridOptions {
  readonly address: (frame: SheetFrame) => string | null | undefined;
  readonly isSelected: (frame: SheetFrame) => boolean;
  /** The view rests. */
  readonly onRest: () => void;
}

/** The frames that are shown, of which only those near the view are in the page. */
export class Grid {
  readonly box: HTMLElement;
  readonly #space: HTMLElement;
  readonly #options: GridOptions;
  readonly #cells = new Map<number, HTMLElement>();
  /** What each cell shows: it is drawn anew only when that changes, so that no picture flickers. */
  readonly #drawn = new WeakMap<HTMLElement, { frame: SheetFrame; address: string | null | undefined }>();
  #frames: readonly SheetFrame[] = [];
  #layout: GridLayout = layOut(0, { least: 1, rowHeight: 1, count: 0 });
  #seen: Stretch = { first: 0, end: 0 };
  #active = 0;
  #isDue = false;
  #timer = 0;

  constructor(box: HTMLElement, options: GridOptions) {
    this.box = box;
    this.#space = element('div', 'space');
    this.#space.setAttribute('role', 'presentation');
    this.#options = options;
    box.append(this.#space);
    box.addEventListener('scroll', () => {
      this.#update();
    });
    new ResizeObserver(() => {
      this.#layOut();
    }).observe(box);
  }

  get frames(): readonly SheetFrame[] {
    return this.#frames;
  }

  /** Frames in view or near it. */
  get seen(): readonly SheetFrame[] {
    return this.#frames.slice(this.#seen.first, this.#seen.end);
  }

  get columns(): number {
    return this.#layout.columns;
  }

  /** Rows that the view shows whole, at least one. */
  get rowsInView(): number {
    return Math.max(1, Math.floor(this.box.clientHeight / this.#layout.rowHeight));
  }

  /** The position that keys act on. */
  get active(): number {
    return this.#active;
  }

  show(frames: readonly SheetFrame[], active: number): void {
    this.#frames = frames;
    this.#active = Math.max(0, Math.min(active, frames.length - 1));
    this.#layOut();
  }

  /** Makes a position the active one and shows it. */
  goTo(position: number): void {
    this.#active = Math.max(0, Math.min(position, this.#frames.length - 1));
    if (this.#frames.length === 0) return;
    this.box.scrollTop = scrollTo(this.#layout, this.#active, this.box.scrollTop, this.box.clientHeight);
    this.redraw();
  }

  /** Pictures or the selection are others now. */
  redraw(): void {
    this.#update();
  }

  /** The position of the cell that something on the page belongs to. */
  positionOf(target: EventTarget | null): number | undefined {
    const cell = target instanceof Element ? target.closest<HTMLElement>('.cell') : null;
    return cell ? Number(cell.dataset['position']) : undefined;
  }

  #layOut(): void {
    const style = getComputedStyle(this.box);
    const pixels = (property: string): number => Number.parseFloat(style.getPropertyValue(property));
    const rowHeight = Math.round(pixels('--picture-room') + SPACE + LINES * (pixels('line-height') || 19));
    const cells = { least: pixels('--least-cell'), rowHeight, count: this.#frames.length };
    this.#layout = layOut(this.#space.clientWidth, cells);
    this.#space.style.height = `${heightOfAll(this.#layout)}px`;
    for (const [position, cell] of this.#cells) this.#place(cell, position);
    this.#draw();
  }

  #update(): void {
    if (this.#isDue) return;
    this.#isDue = true;
    requestAnimationFrame(() => {
      this.#isDue = false;
      this.#draw();
    });
  }

  #draw(): void {
    this.#seen = windowOf(this.#layout, this.box.scrollTop, this.box.clientHeight, SPARE_ROWS);
    const { first, end } = this.#seen;
    const wanted = new Set<number>();
    for (let position = first; position < end; position++) wanted.add(position);
    // Who listens to the page must find the active one there.
    if (this.#frames.length > 0) wanted.add(this.#active);
    for (const [position, cell] of this.#cells) {
      if (wanted.has(position)) continue;
      cell.remove();
      this.#cells.delete(position);
    }
    for (const position of wanted) this.#drawAt(position);
    if (this.#frames.length > 0) this.box.setAttribute('aria-activedescendant', idOf(this.#active));
    else this.box.removeAttribute('aria-activedescendant');
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => {
      this.#options.onRest();
    }, REST);
  }

  #drawAt(position: number): void {
    const frame = this.#frames[position]!;
    const cell = this.#cells.get(position) ?? this.#newCell(position);
    const address = this.#options.address(frame);
    const isSelected = this.#options.isSelected(frame);
    cell.classList.toggle('active', position === this.#active);
    cell.setAttribute('aria-selected', String(isSelected));
    cell.setAttribute('aria-setsize', String(this.#frames.length));
    const drawn = this.#drawn.get(cell);
    if (drawn?.frame === frame && drawn.address === address) return;
    this.#drawn.set(cell, { frame, address });
    drawCell(cell, frame, address);
  }

  #place(cell: HTMLElement, position: number): void {
    const { x, y } = placeOf(this.#layout, position);
    cell.style.transform = `translate(${x}px, ${y}px)`;
    cell.style.width = `${this.#layout.cellWidth}px`;
    cell.style.height = `${this.#layout.rowHeight}px`;
  }

  #newCell(position: number): HTMLElement {
    const cell = element('div', 'cell');
    cell.id = idOf(position);
    cell.dataset['position'] = String(position);
    cell.setAttribute('role', 'option');
    cell.setAttribute('aria-posinset', String(position + 1));
    this.#place(cell, position);
    this.#cells.set(position, cell);
    this.#space.append(cell);
    return cell;
  }
}

function idOf(position: number): string {
  return `frame-${position}`;
}
