import { describe, expect, it } from 'vitest';
import { edgesOf } from '../../src/geometry/shapes.ts';
import { said } from '../../src/rules/testing/scenes.ts';
import { median } from './support/median.ts';
import type { MeasuredPhoto } from './support/measured.ts';
import { narrowFound, narrowSeen, wideCalled, widthErrors, type Shares } from './support/narrow.ts';
import { outlineOverlap } from './support/outlines.ts';
import { pairsOf, type Pair } from './support/pairs.ts';

/** What is asked of a set of photos; each a little under what was measured when it was written. */
export interface OutlineFloors {
  /** Shared area over joint area: the middle one of all people, and the worst. */
  readonly overlap: readonly [median: number, least: number];
  /** Median error of the width, in percent of the person's height. */
  readonly width: number;
  /** Shares of narrow places found that are right, of clear ones that are seen, of wide places called that are right. */
  readonly found: number;
  readonly seen: number;
  readonly called: number;
}

/** Lower edges that are tried on everybody, from the top of the photo to its end. */
const EDGES = 60;

/** Outlines, widths and narrow places of measured people against exact masks or polygons drawn by people. */
export function describeOutlines(photos: () => readonly MeasuredPhoto[], floors: OutlineFloors): void {
  describe('outlines', () => {
    const all = (): Pair[] => pairsOf(photos());
    const outlined = (): Pair[] => all().filter(({ found }) => found.outline !== undefined);

    it('cover what the labels cover', () => {
      const overlaps = outlined().map(outlineOverlap);
      expect(overlaps.length).toBeGreaterThan(10);
      expect(median(overlaps)).toBeGreaterThanOrEqual(floors.overlap[0]);
      expect(Math.min(...overlaps)).toBeGreaterThanOrEqual(floors.overlap[1]);
      for (const { found } of outlined()) {
        expect(found.outline!.length).toBeLessThanOrEqual(64);
        for (const gap of found.gaps ?? []) expect(gap.length).toBeLessThanOrEqual(12);
      }
    });

    it('are as wide at each height', () => {
      expect(median(widthErrors(outlined()))).toBeLessThanOrEqual(floors.width);
    });

    it('narrow within 3 % of the height of where the labels narrow', () => {
      expectShare(narrowFound(outlined()), floors.found);
      expectShare(narrowSeen(outlined()), floors.seen);
    });

    it('are widest where the labels narrow as the hint says', () => {
      expectShare(wideCalled(outlined()), floors.called);
    });

    it('are what the hint speaks from: without one it says nothing, wherever the lower edge is', () => {
      expect(hints(photos()).length).toBeGreaterThan(0);
      expect(hints(photos().map(withoutOutlines))).toEqual([]);
      const without = new Set(all().flatMap(({ found, name }) => (found.outline ? [] : [name])));
      expect(hints(photos()).filter((name) => without.has(name))).toEqual([]);
    });
  });
}

function expectShare({ said: count, right, wrong }: Shares, least: number): void {
  expect(count).toBeGreaterThan(3);
  expect(right / count, `${right} of ${count}; not: ${wrong.join(', ')}`).toBeGreaterThanOrEqual(least);
}

/** Of whom the rule speaks, with the lower edge tried at many heights of each photo. */
function hints(photos: readonly MeasuredPhoto[]): string[] {
  const named = photos.flatMap(({ labelled: { name, size }, measured: { people }, matches }) => {
    const ids = people.map(({ id }) => id);
    const whole = edgesOf({ x: 0, y: 0, w: 1, h: 1 }, size);
    return Array.from({ length: EDGES }, (_, step) => ((step + 1) / EDGES) * size.height).flatMap((bottom) =>
      said('narrow-place', { photo: size, people, subjects: ids, ...whole, bottom }).map((words) => {
        const match = matches.find(({ found }) => found?.id === Number(words.split(' ')[0]));
        return `${name} ${match?.labelled.id ?? `measured ${words}`}`;
      }),
    );
  });
  return [...new Set(named)];
}

function withoutOutlines(photo: MeasuredPhoto): MeasuredPhoto {
  const people = photo.measured.people.map(({ id, source, box, points, headTop }) => ({
    id,
    source,
    box,
    points,
    ...(headTop && { headTop }),
  }));
  return { ...photo, measured: { ...photo.measured, people } };
}
