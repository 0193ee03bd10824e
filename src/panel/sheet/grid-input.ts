import type { Grid } from './grid.ts';
import { all, NOTHING, only, toggled, upTo, type Selection } from './selection.ts';

export interface GridHandlers {
  readonly selection: () => Selection;
  readonly select: (selection: Selection) => void;
  /** Shows the frame's line in the text; leaving, the keyboard goes there too. */
  readonly go: (position: number, isLeaving: boolean) => void;
}

/** Mouse and keys on the grid: what lists of the editor do with them. */
export function listenToGrid(grid: Grid, handlers: GridHandlers): void {
  const names = (): string[] => grid.frames.map(({ name }) => name);
  grid.box.addEventListener('click', (event) => {
    const position = grid.positionOf(event.target);
    if (position === undefined) return;
    grid.goTo(position);
    const isToggling = event.ctrlKey || event.metaKey;
    if (event.shiftKey) handlers.select(upTo(handlers.selection(), names(), position));
    else if (isToggling) handlers.select(toggled(handlers.selection(), names(), position));
    else handlers.select(only(names(), position));
    if (!event.shiftKey && !isToggling) handlers.go(position, false);
  });
  grid.box.addEventListener('dblclick', (event) => {
    const position = grid.positionOf(event.target);
    if (position !== undefined) handlers.go(position, true);
  });
  grid.box.addEventListener('keydown', (event) => {
    if (grid.frames.length === 0 || event.altKey || !takeKey(event, grid, handlers, names)) return;
    event.preventDefault();
    event.stopPropagation();
  });
}

/** @returns whether the key means something here */
function takeKey(event: KeyboardEvent, grid: Grid, handlers: GridHandlers, names: () => string[]): boolean {
  const { active } = grid;
  const isCommand = event.ctrlKey || event.metaKey;
  if (isCommand && event.key.toLowerCase() === 'a') {
    handlers.select(all(names()));
    return true;
  }
  if (event.key === ' ') {
    handlers.select(event.shiftKey ? upTo(handlers.selection(), names(), active) : toggled(handlers.selection(), names(), active)); // prettier-ignore
    return true;
  }
  if (event.key === 'Enter') {
    handlers.go(active, true);
    return true;
  }
  if (event.key === 'Escape') {
    if (handlers.selection().names.size === 0) return false;
    handlers.select({ ...NOTHING, anchor: active });
    return true;
  }
  const to = movedBy(event.key, grid);
  if (to === undefined) return false;
  const position = Math.max(0, Math.min(to, grid.frames.length - 1));
  grid.goTo(position);
  if (event.shiftKey) handlers.select(upTo(handlers.selection(), names(), position));
  else if (!isCommand) handlers.select({ ...handlers.selection(), anchor: position });
  return true;
}

/** Where a key leads from the active position; it may be outside. */
function movedBy(key: string, { active, columns, rowsInView, frames }: Grid): number | undefined {
  switch (key) {
    case 'ArrowLeft':
      return active - 1;
    case 'ArrowRight':
      return active + 1;
    case 'ArrowUp':
      return active - columns < 0 ? active : active - columns;
    case 'ArrowDown':
      return active + columns >= frames.length ? active : active + columns;
    case 'Home':
      return 0;
    case 'End':
      return frames.length - 1;
    case 'PageUp':
      return active - rowsInView * columns;
    case 'PageDown':
      return active + rowsInView * columns;
    default:
      return undefined;
  }
}
