import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Document } from 'yaml';
import { isMap, isNode, isPair, parseDocument } from 'yaml';
import type { FrameChange } from './edit.ts';
import { editFrames } from './edit.ts';
import { tidyManifest } from './edit-samples.ts';
import { handMade } from './hand-made.ts';
import { sample } from './manifest-samples.ts';
import { formatNumber } from './new-value.ts';
import { parseManifest } from './parse.ts';
import { applyEdits, sortEdits, type TextEdit } from './text-edit.ts';

/** Values that are set in all. */
const EDITS = 10_000;
const RULES = [{ id: 'joint-cut' }, { id: 'headroom' }];

const place = fc.double({ min: -1, max: 1, noNaN: true });
const extent = fc.double({ min: 0.01, max: 1.5, noNaN: true });
const change: fc.Arbitrary<FrameChange> = fc.oneof(
  fc.record({ crop: fc.record({ x: place, y: place, w: extent, h: extent }) }),
  fc.record({ straighten: fc.double({ min: -45, max: 45, noNaN: true }) }),
  fc.record({ length: fc.constantFrom('full-length' as const, 'close-up' as const) }),
  fc.record({ final: fc.boolean() }),
  fc.record({ note: fc.constantFrom('plain', 'a "b" \\ # c', 'Möwe: 写真', '- no list', '') }),
  fc.record({ allow: fc.record({ headroom: fc.constantFrom('meant', "it's so") }) }),
);
const changes = fc
  .array(fc.tuple(fc.nat(6), change), { minLength: 1, maxLength: 4 })
  .map((pairs) => new Map<number, FrameChange>(pairs));

const manifests = fc.oneof(
  sample.map(({ text }) => text),
  tidyManifest,
  fc.constantFrom(...handMade),
);

/** What yaml itself, without any of our code, makes of a text; undefined when it is not in order. */
function read(text: string): Document | undefined {
  const document = parseDocument(text, { merge: true, keepSourceTokens: true });
  return document.errors.length === 0 ? document : undefined;
}

type Values = Record<string, unknown>;

/**
 * The values of all frames. Keys of the user's own (x-) are where the old text is kept that others share; `null` is how a
 * frame is kept from getting a value that another one, which it merges in, is given; `{}` allows nothing: they say nothing.
 */
function framesOf(document: Document): Values[] {
  const { frames } = document.toJS({ maxAliasCount: -1 }) as { frames: Values[] };
  return frames.map((frame) => bare(frame) as Values);
}

function bare(value: unknown): unknown {
  // The line break that ends a block scalar belongs to its writing, not to the text (scalars.ts).
  if (typeof value === 'string') return value.replace(/\n+$/, '');
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  const own = Object.entries(value).filter(([key, member]) => !key.startsWith('x-') && !isNothing(member));
  return Object.fromEntries(own.map(([key, member]) => [key, bare(member)]));
}

function isNothing(value: unknown): boolean {
  return value === null || (typeof value === 'object' && Object.keys(value).length === 0);
}

/** What a frame says once a change is made; a map keeps the members that are not set. */
function changed(frame: Values, { crop, straighten, allow, ...plain }: FrameChange): Values {
  const number = (value: number, decimals: number): number => Number(formatNumber(value, decimals));
  const members = (old: unknown, set: Values): Values =>
    typeof old === 'object' && old !== null && !Array.isArray(old) ? { ...old, ...set } : set;
  const set =
    crop && Object.fromEntries(Object.entries<number>({ ...crop }).map(([key, value]) => [key, number(value, 4)]));
  return {
    ...frame,
    ...plain,
    ...(set && { crop: members(frame['crop'], set) }),
    ...(straighten !== undefined && { straighten: number(straighten, 2) }),
    ...(allow && { allow: members(frame['allow'], allow) }),
  };
}

/** Where yaml has the value of a frame's key, its anchor and tag included. */
function valuePlace(document: Document, index: number, key: string): readonly [number, number] | undefined {
  const frame = document.getIn(['frames', index], true);
  const pair = isMap(frame) ? frame.items.find((item) => isPair(item) && String(item.key) === key) : undefined;
  const value = pair?.value;
  if (!isNode(value) || !value.range) return undefined;
  const before = pair?.srcToken?.sep?.find(({ type }) => type === 'anchor' || type === 'tag');
  return [before?.offset ?? value.range[0], value.range[1]];
}

/** Characters are taken away only inside values that are set; a shared value's key and an alias are only put elsewhere. */
function removesOnlyValues(
  text: string,
  document: Document,
  edits: readonly TextEdit[],
  asked: ReadonlyMap<number, FrameChange>,
): void {
  const places = [...asked].flatMap(([index, each]) =>
    Object.keys(each).map((key) => valuePlace(document, index, key)),
  );
  for (const { start, end, text: put } of edits) {
    const isInside = places.some((at) => at && at[0] <= start && end <= at[1]);
    const removed = text.slice(start, end);
    const isKept = put.startsWith(`x-${removed}`) || put.startsWith(`{ <<: ${removed},`);
    expect(start === end || isInside || isKept, removed).toBe(true);
  }
}

/** Every byte of the old text that no edit takes is in the new one, in its place. */
function keepsBytes(before: string, after: string, edits: readonly TextEdit[]): void {
  const [old, now] = [Buffer.from(before), Buffer.from(after)];
  const bytes = (text: string): number => Buffer.byteLength(text);
  let [from, to] = [0, 0];
  for (const { start, end, text } of [...sortEdits(edits), { start: before.length, end: before.length, text: '' }]) {
    const length = bytes(before.slice(0, start)) - from;
    expect(now.subarray(to, to + length).equals(old.subarray(from, from + length))).toBe(true);
    from += length + bytes(before.slice(start, end));
    to += length + bytes(text);
  }
  expect(to).toBe(now.length);
}

it(`${EDITS} edits change the values that are set and no other byte`, () => {
  let made = 0;
  while (made < EDITS) {
    fc.assert(
      fc.property(manifests, changes, (text, asked) => {
        const manifest = parseManifest(text, RULES);
        const before = read(text);
        fc.pre(before !== undefined);
        const readable = new Map(
          [...asked].filter(([index]) => manifest.frames.some((frame) => frame.index === index)),
        );
        const edits = editFrames(manifest, readable);
        const after = applyEdits(text, edits);
        keepsBytes(text, after, edits);
        removesOnlyValues(text, before, edits, readable);
        // What cannot be read says nothing, and need not be kept where it came from a frame that changes.
        const unread = new Map(manifest.frames.map((frame) => [frame.index, frame.unread]));
        const readables = (frames: readonly Values[]): Values[] =>
          frames.map((frame, index) => {
            const left = Object.entries(frame).filter(
              ([key]) => !unread.get(index)?.has(key) || key in (readable.get(index) ?? {}),
            );
            return Object.fromEntries(left);
          });
        const expected = framesOf(before).map((frame, index) => {
          const here = readable.get(index);
          return here ? changed(frame, here) : frame;
        });
        expect(readables(framesOf(read(after)!))).toEqual(readables(expected));
        made += readable.size;
      }),
      { numRuns: 500 },
    );
  }
});
