import { drag, WHOLE, type Hold } from '../../geometry/drag.ts';
import type { EdgeName, Edges, Point, Size } from '../../geometry/shapes.ts';
import { ARROWS } from './arrows.ts';

/** What the handles need from the mat. */
export interface Handled {
  /** The crop now; undefined when there is nothing to drag. */
  edges(): Edges | undefined;
  options(): Parameters<typeof drag>[3];
  /** Pixels of the page to one of the photo. */
  scale(): number;
  move(edges: Edges): void;
  letGo(): void;
  /** Something that is being used has to be in sight. */
  reveal(element: HTMLElement): void;
}

const CORNERS: readonly Hold[] = [
  ['left', 'top'],
  ['right', 'top'],
  ['left', 'bottom'],
  ['right', 'bottom'],
];
const SIDES: readonly EdgeName[] = ['left', 'top', 'right', 'bottom'];
const WORDS: Readonly<Record<EdgeName, string>> = { left: 'left', top: 'upper', right: 'right', bottom: 'lower' };
/** One key moves by so much of the photo's longer side; with Shift by ten times that. */
const KEY_SHARE = 0.001;
/** A crop is written with four decimals. */
const DECIMALS = 10_000;
/** Keys that come one after the other are one edit. */
const KEY_PAUSE = 500;

/** Puts the handles onto the crop: edges, corners and the whole, each by mouse, pen, finger or arrow keys. */
export function addHandles(crop: HTMLElement, handled: Handled): void {
  listen(crop, WHOLE, handled);
  for (const hold of [...SIDES.map((side): Hold => [side]), ...CORNERS]) {
    const handle = document.createElement('button');
    handle.type = 'button';
    handle.className = `handle ${hold.join(' ')}`;
    const words = hold.map((edge) => WORDS[edge]);
    handle.setAttribute('aria-label', hold.length === 1 ? `${words[0]!} edge` : `${words[1]!} ${words[0]!} corner`);
    crop.append(handle);
    listen(handle, hold, handled);
  }
}

/** In pixels; whole steps of the last decimal that is written, so that to and fro is where it was. */
function keyStep({ width, height }: Size, isLarge: boolean): Point {
  const step = Math.max(width, height) * KEY_SHARE * (isLarge ? 10 : 1);
  const written = (side: number): number => (Math.round((step / side) * DECIMALS) / DECIMALS) * side;
  return { x: written(width), y: written(height) };
}

function listen(element: HTMLElement, hold: Hold, handled: Handled): void {
  element.addEventListener('pointerdown', (event) => {
    const start = handled.edges();
    if (!start || event.button !== 0) return;
    event.stopPropagation();
    event.preventDefault();
    element.focus({ preventScroll: true });
    element.setPointerCapture(event.pointerId);
    const onMove = (moved: PointerEvent): void => {
      const by = {
        x: (moved.clientX - event.clientX) / handled.scale(),
        y: (moved.clientY - event.clientY) / handled.scale(),
      };
      handled.move(drag(start, hold, by, handled.options()));
    };
    const onEnd = (): void => {
      element.removeEventListener('pointermove', onMove);
      handled.letGo();
    };
    element.addEventListener('pointermove', onMove);
    element.addEventListener('lostpointercapture', onEnd, { once: true });
  });
  let timer = 0;
  element.addEventListener('focus', () => {
    if (element.matches(':focus-visible') && hold !== WHOLE) handled.reveal(element);
  });
  element.addEventListener('keydown', (event) => {
    const arrow = ARROWS[event.key];
    const edges = handled.edges();
    if (!arrow || !edges || event.ctrlKey || event.metaKey || event.altKey) return;
    event.stopPropagation();
    event.preventDefault();
    const { x, y } = keyStep(handled.options().photo, event.shiftKey);
    handled.move(drag(edges, hold, { x: arrow.x * x, y: arrow.y * y }, handled.options()));
    window.clearTimeout(timer);
    timer = window.setTimeout(() => {
      handled.letGo();
    }, KEY_PAUSE);
  });
}
