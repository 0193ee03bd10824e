/** A grid of equal cells that scrolls downwards; all lengths in pixels of the page. */
export interface GridLayout {
  readonly columns: number;
  readonly cellWidth: number;
  readonly rowHeight: number;
  readonly count: number;
}

/** A half-open stretch of positions. */
export interface Stretch {
  readonly first: number;
  readonly end: number;
}

/** As many columns as fit, each at least so wide; they share what is left over. Never none. */
export function layOut(
  width: number,
  { least, rowHeight, count }: { readonly least: number; readonly rowHeight: number; readonly count: number },
): GridLayout {
  const columns = Math.max(1, Math.floor(width / least));
  return { columns, cellWidth: Math.max(0, width) / columns, rowHeight, count };
}

export function heightOfAll({ columns, rowHeight, count }: GridLayout): number {
  return Math.ceil(count / columns) * rowHeight;
}

/** Where a cell's upper left corner is. */
export function placeOf({ columns, cellWidth, rowHeight }: GridLayout, position: number): { x: number; y: number } {
  return { x: (position % columns) * cellWidth, y: Math.floor(position / columns) * rowHeight };
}

/** The cells of rows that a viewport touches, and of so many rows before and after it. */
export function windowOf(layout: GridLayout, scrollTop: number, viewHeight: number, spareRows: number): Stretch {
  const { columns, rowHeight, count } = layout;
  const firstRow = Math.floor(scrollTop / rowHeight) - spareRows;
  const endRow = Math.ceil((scrollTop + viewHeight) / rowHeight) + spareRows;
  const within = (row: number): number => Math.min(count, Math.max(0, row * columns));
  return { first: within(firstRow), end: Math.max(within(firstRow), within(endRow)) };
}

/** How far to scroll so that a cell is seen whole: as little as possible; its top, where the view is too low for it. */
export function scrollTo(layout: GridLayout, position: number, scrollTop: number, viewHeight: number): number {
  const { y } = placeOf(layout, position);
  const lowest = y + layout.rowHeight - viewHeight;
  return Math.min(y, Math.max(scrollTop, lowest));
}
