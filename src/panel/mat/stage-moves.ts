import { byId } from '../page/elements.ts';
import type { Stage } from './stage.ts';

const FACTOR = 1.25;
/** Pixels of the page for one key. */
const KEY_STEP = 60;
const WHEEL_STEP = 0.0015;

/** Zooming and moving about by wheel, pointer, keys and buttons. */
export function addStageMoves(stage: Stage): void {
  const { element } = stage;
  element.addEventListener('wheel', (event) => {
    event.preventDefault();
    const { left, top } = element.getBoundingClientRect();
    const at = { x: event.clientX - left, y: event.clientY - top };
    if (event.ctrlKey || event.metaKey) stage.zoom(Math.exp(-event.deltaY * WHEEL_STEP), at);
    else if (event.shiftKey) stage.pan({ x: -event.deltaY - event.deltaX, y: 0 });
    else stage.pan({ x: -event.deltaX, y: -event.deltaY });
  });
  element.addEventListener('pointerdown', (event) => {
    const isBeside = event.button === 0 && (event.target === element || (event.target as Element).id === 'picture');
    if (event.button !== 1 && !isBeside) return;
    event.preventDefault();
    event.stopPropagation();
    element.setPointerCapture(event.pointerId);
    let { clientX: x, clientY: y } = event;
    const onMove = (moved: PointerEvent): void => {
      stage.pan({ x: moved.clientX - x, y: moved.clientY - y });
      ({ clientX: x, clientY: y } = moved);
    };
    element.addEventListener('pointermove', onMove);
    const onEnd = (): void => {
      element.removeEventListener('pointermove', onMove);
    };
    element.addEventListener('lostpointercapture', onEnd, { once: true });
  }, { capture: true }); // prettier-ignore
  for (const [id, act] of [
    ['zoom-in', () => { stage.zoom(FACTOR); }], // prettier-ignore
    ['zoom-out', () => { stage.zoom(1 / FACTOR); }], // prettier-ignore
    ['zoom-fit', () => { stage.fit(); }], // prettier-ignore
    ['zoom-one', () => { stage.oneToOne(); }], // prettier-ignore
  ] as const) {
    byId(id).addEventListener('click', act);
  }
}

/** @returns whether the key was one of the stage's */
export function moveByKey(stage: Stage, { key, altKey, ctrlKey, metaKey }: KeyboardEvent): boolean {
  if (ctrlKey || metaKey) return false;
  const arrows: Readonly<Record<string, readonly [number, number]>> = {
    ArrowLeft: [1, 0],
    ArrowRight: [-1, 0],
    ArrowUp: [0, 1],
    ArrowDown: [0, -1],
  };
  const arrow = arrows[key];
  if (altKey && arrow) stage.pan({ x: arrow[0] * KEY_STEP, y: arrow[1] * KEY_STEP });
  else if (altKey) return false;
  else if (key === '+' || key === '=') stage.zoom(FACTOR);
  else if (key === '-') stage.zoom(1 / FACTOR);
  else if (key === '0') stage.fit();
  else if (key === '1') stage.oneToOne();
  else return false;
  return true;
}
