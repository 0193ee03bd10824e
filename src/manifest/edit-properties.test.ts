import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FrameChange } from './edit.ts';
import { editFrames } from './edit.ts';
import { insertFrameAfter, removeFrame } from './edit-list.ts';
import type { Frame, Manifest } from './manifest.ts';
import { sample } from './manifest-samples.ts';
import { formatNumber } from './new-value.ts';
import { parseManifest } from './parse.ts';
import { applyEdits } from './text-edit.ts';

const RULES = [{ id: 'joint-cut' }, { id: 'headroom' }];

const place = fc.double({ min: -1, max: 1, noNaN: true });
const extent = fc.double({ min: 0.01, max: 1.5, noNaN: true });
const change: fc.Arbitrary<FrameChange> = fc.record(
  {
    crop: fc.record({ x: place, y: place, w: extent, h: extent }),
    straighten: fc.double({ min: -45, max: 45, noNaN: true }),
    length: fc.constantFrom('full-length', 'close-up'),
    final: fc.boolean(),
    note: fc.string({ unit: 'grapheme', maxLength: 12 }).filter((note) => !note.includes('\u0000')),
    allow: fc.dictionary(
      fc.constantFrom('headroom', 'joint-cut', 'joint-cut/left_knee'),
      fc.constantFrom('because', 'a "b" \\ # c'),
    ),
  },
  { requiredKeys: [] },
);

const changes = (count: number): fc.Arbitrary<Map<number, FrameChange>> =>
  fc
    .array(fc.tuple(fc.nat(count - 1), change), { minLength: 1, maxLength: 3 })
    .map((pairs) => new Map<number, FrameChange>(pairs));

const edited = sample.chain(({ text, frames }) => fc.tuple(fc.constant(text), changes(frames)));

/** What a frame says, without where it says it. */
function said(frame: Frame): unknown {
  const { photo, name, crop, straighten, aspect, length, subjects, compose, note, final } = frame;
  const values = { photo, straighten, aspect, length, subjects, compose, note, final };
  return {
    name,
    crop: crop && rounded(crop.value),
    ...Object.fromEntries(Object.entries(values).map(([key, located]) => [key, located?.value])),
    allow: [...frame.allow].map(([key, { value }]) => [key, value]).sort(),
  };
}

function rounded({ x, y, w, h }: { x: number; y: number; w: number; h: number }): number[] {
  return [x, y, w, h].map((value) => Number(formatNumber(value, 4)));
}

function byIndex(manifest: Manifest): Map<number, Frame> {
  return new Map(manifest.frames.map((frame) => [frame.index, frame]));
}

/** What the change asks for, on top of what the frame said. */
function expected(frame: Frame, asked: FrameChange): unknown {
  const before = said(frame) as Record<string, unknown>;
  const { crop, straighten, length, final, note, allow } = asked;
  const reasons = new Map([...frame.allow].map(([key, { value }]) => [key, value]));
  for (const [key, reason] of Object.entries(allow ?? {})) reasons.set(key, reason);
  return {
    ...before,
    ...(crop && { crop: rounded(crop) }),
    ...(straighten !== undefined && { straighten: Number(formatNumber(straighten, 2)) }),
    ...(length !== undefined && { length }),
    ...(final !== undefined && { final }),
    ...(note !== undefined && { note }),
    allow: [...reasons].sort(),
  };
}

describe('edits of random manifests', () => {
  it('set what is asked, and leave what every other frame says', () => {
    fc.assert(
      fc.property(edited, ([text, asked]) => {
        const before = parseManifest(text, RULES);
        const after = byIndex(parseManifest(applyEdits(text, editFrames(before, asked)), RULES));
        expect(after.size).toBe(before.frames.length);
        for (const frame of before.frames) {
          const here = asked.get(frame.index);
          expect(said(after.get(frame.index)!)).toEqual(here ? expected(frame, here) : said(frame));
        }
      }),
      { numRuns: 200 },
    );
  });

  it('bring no problem that was not there', () => {
    fc.assert(
      fc.property(edited, ([text, asked]) => {
        const before = parseManifest(text, RULES);
        const after = parseManifest(applyEdits(text, editFrames(before, asked)), RULES);
        const known = before.problems.map(({ code, message }) => code + message);
        for (const problem of after.problems) expect(known).toContain(problem.code + problem.message);
      }),
      { numRuns: 200 },
    );
  });

  it('take out only text of the values that are set, when nothing is shared', () => {
    fc.assert(
      fc.property(edited, ([text, asked]) => {
        const manifest = parseManifest(text, RULES);
        fc.pre(manifest.frames.every(({ index }) => manifest.writtenFrames.get(index)!.sources.length === 0));
        for (const edit of editFrames(manifest, asked)) {
          const frame = manifest.frames.find(
            ({ range }) => range.start <= edit.start && edit.start <= lineEndAfter(text, range.end),
          );
          expect(frame && asked.has(frame.index)).toBe(true);
          const values = Object.keys(asked.get(frame!.index)!).map((key) => valueRange(frame!, key));
          const inValue = values.some((range) => range && range.start <= edit.start && edit.end <= range.end);
          // A key kept beside as x-, a value that is null, a value with its tag: none has a range of its own.
          const removed = text.slice(edit.start, edit.end);
          const special = /^x-/.test(edit.text) || /^(~|null|!!float 3)$/.test(removed);
          expect(edit.start === edit.end || inValue || special).toBe(true);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('keep every comment and every line break, and nothing is left to do a second time', () => {
    fc.assert(
      fc.property(edited, ([text, asked]) => {
        const before = parseManifest(text, RULES);
        const after = applyEdits(text, editFrames(before, asked));
        for (const comment of ['# keep me', '# {x: 1}, [', '# left', '# above h', '# said below', '# half', '# end']) {
          expect(after.split(comment).length).toBe(text.split(comment).length);
        }
        expect(/[^\r]\n/.test(after)).toBe(/[^\r]\n/.test(text));
        expect(after.startsWith('\uFEFF')).toBe(text.startsWith('\uFEFF'));
        expect(editFrames(parseManifest(after, RULES), asked)).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it('add and take out frames without touching what the others say', () => {
    fc.assert(
      fc.property(sample, fc.nat(6), ({ text }, at) => {
        const before = parseManifest(text, RULES);
        const index = Math.min(at, before.frameCount - 1);
        const crop = { x: 0.1, y: 0.2, w: 0.5, h: 0.6 };
        const grown = applyEdits(text, insertFrameAfter(before, index, { photo: 'new one.jpg', crop }));
        const more = parseManifest(grown, RULES);
        expect(more.frameCount).toBe(before.frameCount + 1);
        const added = more.frames.find((frame) => frame.index === index + 1)!;
        expect(added.photo.value).toBe('new one.jpg');
        expect(rounded(added.crop!.value)).toEqual([0.1, 0.2, 0.5, 0.6]);
        expect(more.frames.filter((frame) => frame !== added).map(said)).toEqual(before.frames.map(said));
        const back = applyEdits(grown, removeFrame(more, index + 1));
        expect(parseManifest(back, RULES).frames.map(said)).toEqual(before.frames.map(said));
      }),
      { numRuns: 200 },
    );
  });
});

function valueRange(frame: Frame, key: string): { start: number; end: number } | undefined {
  const located = frame[key as 'crop' | 'straighten'];
  const read = located && 'range' in located ? located.range : undefined;
  const own = read ?? frame.unread.get(key);
  if (own) return own;
  const reasons = [...frame.allow.values()].map(({ range }) => range);
  return key === 'allow' && reasons.length > 0
    ? { start: Math.min(...reasons.map(({ start }) => start)), end: Math.max(...reasons.map(({ end }) => end)) }
    : undefined;
}

function lineEndAfter(text: string, offset: number): number {
  const at = text.indexOf('\n', offset);
  return at === -1 ? text.length : at;
}
