import fc from 'fast-check';
import { expect, it } from 'vitest';
import { heightOfAll, layOut, placeOf, scrollTo, windowOf } from './virtual-window.ts';

const layouts = fc
  .record({
    width: fc.integer({ min: 0, max: 4000 }),
    least: fc.integer({ min: 20, max: 400 }),
    rowHeight: fc.integer({ min: 20, max: 500 }),
    count: fc.nat(50_000),
  })
  .map(({ width, ...cells }) => layOut(width, cells));
const views = fc.record({ scrollTop: fc.nat(2_000_000), height: fc.nat(3000), spare: fc.nat(3) });

it('has the cells that are seen, each of them, and few others', () => {
  fc.assert(
    fc.property(layouts, views, (layout, { scrollTop, height, spare }) => {
      const { first, end } = windowOf(layout, scrollTop, height, spare);
      expect(first).toBeGreaterThanOrEqual(0);
      expect(end).toBeGreaterThanOrEqual(first);
      expect(end).toBeLessThanOrEqual(layout.count);
      const rows = height / layout.rowHeight + 2 + 2 * spare;
      expect(end - first).toBeLessThanOrEqual(Math.ceil(rows) * layout.columns);
      const isSeen = (position: number): boolean => {
        const { y } = placeOf(layout, position);
        return y < scrollTop + height && y + layout.rowHeight > scrollTop;
      };
      for (const outside of [first - 1, end]) {
        if (outside >= 0 && outside < layout.count) expect(isSeen(outside)).toBe(false);
      }
    }),
  );
});

it('all cells lie inside the width and the height of all', () => {
  fc.assert(
    fc.property(layouts, fc.nat(), (layout, number) => {
      fc.pre(layout.count > 0);
      const { x, y } = placeOf(layout, number % layout.count);
      expect(x + layout.cellWidth).toBeLessThanOrEqual(layout.cellWidth * layout.columns + 1e-6);
      expect(y + layout.rowHeight).toBeLessThanOrEqual(heightOfAll(layout));
    }),
  );
});

it('scrolls to a cell by as little as it takes', () => {
  fc.assert(
    fc.property(layouts, views, fc.nat(), (layout, { scrollTop, height }, number) => {
      fc.pre(layout.count > 0 && height >= layout.rowHeight);
      const position = number % layout.count;
      const { y } = placeOf(layout, position);
      const to = scrollTo(layout, position, scrollTop, height);
      expect(to).toBeLessThanOrEqual(y);
      expect(to + height).toBeGreaterThanOrEqual(y + layout.rowHeight);
      const isSeen = y >= scrollTop && y + layout.rowHeight <= scrollTop + height;
      if (isSeen) expect(to).toBe(scrollTop);
    }),
  );
});

it('has one column where not even one fits', () => {
  expect(layOut(50, { least: 180, rowHeight: 100, count: 3 })).toMatchObject({ columns: 1, cellWidth: 50 });
});
