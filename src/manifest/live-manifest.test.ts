import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editFrames } from './edit.ts';
import { removeFrame, insertFrameAfter } from './edit-list.ts';
import { editsOf, steps, tidyManifest } from './edit-samples.ts';
import { LiveManifest } from './live-manifest.ts';
import type { Manifest } from './manifest.ts';
import { sample } from './manifest-samples.ts';
import { parseManifest, readManifest } from './parse.ts';

const RULES = [{ id: 'joint-cut' }, { id: 'headroom' }];

/** As a session is opened from disk; after an edit of the whole it is read as an editor opens it. */
function open(text: string): LiveManifest {
  return new LiveManifest(readManifest(text, RULES), RULES);
}

/** Everything but the nodes of yaml. */
function said(manifest: Manifest): unknown {
  return { ...manifest, written: undefined, writtenFrames: undefined };
}

function replace(live: LiveManifest, what: string, by: string): number | undefined {
  const start = live.text.indexOf(what);
  return live.edit({ start, end: start + what.length, text: by });
}

const TEXT = `selvedge: 1
x-crop: &c { x: 0.1, y: 0.1, w: 0.5, h: 0.5 }
frames:
  - photo: a.jpg
    crop: { x: 0.111, y: 0.06, w: 0.8, h: 0.8 } # 0.999
    note: "0.222"
  - photo: b.jpg
    crop: *c
    straighten: 1.5
  - photo: c.jpg
    straighten: 2.5
photos: proofs
`;

describe('a manifest that is being edited', () => {
  it('reads one frame again after a change inside a plain value', () => {
    const live = open(TEXT);
    expect(replace(live, '0.111', '0.2')).toBe(0);
    expect(replace(live, '2.5', '-10.25')).toBe(2);
    expect(said(live.manifest)).toEqual(said(parseManifest(live.text, RULES)));
    expect(live.header).not.toBe(live.manifest);
  });

  it.each([
    ['a comment', '0.999', '0.9'],
    ['a quoted value', '0.222', '0.2'],
    ['a frame that uses an alias', '1.5', '1.25'],
    ['a shared anchor', '0.5', '0.6'],
    ['a key', 'straighten: 2', 'straight: 2'],
    ['the name of the photo', 'c.jpg', 'd.jpg'],
    ['the header', 'proofs', 'proof'],
    ['a value that becomes none', '2.5', ''],
    ['a value that becomes a comment', '2.5', '#2.5'],
    ['a value that gets an anchor', '2.5', '&d 2.5'],
    ['a value that gets a line', '2.5', '2.5\n    final: true'],
    ['a value that becomes a map', '2.5', '{ a: 1 }'],
  ])('reads the whole after a change of %s', (_, what, by) => {
    const live = open(TEXT);
    expect(replace(live, what, by)).toBeUndefined();
    expect(said(live.manifest)).toEqual(said(parseManifest(live.text, RULES)));
  });

  it('keeps what a frame says as the same object while it only moves', () => {
    const live = open(TEXT);
    const before = live.entries.map(({ content }) => content);
    replace(live, 'selvedge: 1\n', 'selvedge: 1\n# a comment, é and 写\n');
    expect(live.entries.map(({ content }) => content)).toEqual(before);
    for (const [at, { content }] of live.entries.entries()) expect(content).toBe(before[at]);
    replace(live, '0.5, h', '0.6, h');
    expect(live.entries.map(({ content }, at) => content === before[at])).toEqual([true, false, true]);
  });

  it('gives manifests that stay right when the text changes again', () => {
    const live = open(TEXT);
    replace(live, '0.111', '0.2');
    const { manifest } = live;
    const change = new Map([[0, { crop: { x: 0.3, y: 0.3, w: 0.3, h: 0.3 } }]]);
    const edits = editFrames(manifest, change);
    replace(live, 'proofs', 'prints');
    replace(live, 'selvedge: 1', '# first\nselvedge: 1');
    expect(live.entries.length).toBe(3);
    expect(editFrames(manifest, change)).toEqual(edits);
  });

  it('refuses an edit outside the text', () => {
    expect(() => open(TEXT).edit({ start: 0, end: TEXT.length + 1, text: '' })).toThrow(RangeError);
  });

  const manifests = fc.oneof(
    { weight: 4, arbitrary: tidyManifest },
    { weight: 1, arbitrary: sample.map(({ text }) => text) },
  );

  it('says at every moment what a fresh reading says', () => {
    let short = 0;
    let all = 0;
    fc.assert(
      fc.property(
        manifests,
        steps(10),
        fc.nat(3).map((chance) => chance > 0),
        (text, todo, often) => {
          const live = open(text);
          for (const step of todo) {
            for (const edit of editsOf(step, live.text)) {
              if (often) expect(live.entries.length).toBe(live.manifest.frames.length);
              all++;
              if (live.edit(edit) !== undefined) short++;
              if (often) expect(said(live.manifest)).toEqual(said(parseManifest(live.text, RULES)));
            }
          }
          expect(said(live.manifest)).toEqual(said(parseManifest(live.text, RULES)));
        },
      ),
      { numRuns: 300 },
    );
    // Nothing would be proved if hardly an edit took the short way.
    expect(short / all).toBeGreaterThan(0.05);
  });

  it('gives the edits of a frame that a fresh reading gives', () => {
    const crop = { x: 0.15, y: 0.25, w: 0.5, h: 0.6 };
    fc.assert(
      fc.property(manifests, steps(6), fc.nat(5), (text, todo, index) => {
        const live = open(text);
        for (const step of todo) for (const edit of editsOf(step, live.text)) live.edit(edit);
        const change = new Map([[index, { crop, straighten: 1.25, note: 'new' }]]);
        const edits = editFrames(parseManifest(live.text, RULES), change);
        expect(editFrames(live.manifest, change)).toEqual(edits);
      }),
      { numRuns: 300 },
    );
  });

  it('gives the edits of the list that a fresh reading gives', () => {
    fc.assert(
      fc.property(manifests, steps(6), fc.nat(5), (text, todo, index) => {
        const live = open(text);
        for (const step of todo) for (const edit of editsOf(step, live.text)) live.edit(edit);
        const fresh = parseManifest(live.text, RULES);
        expect(removeFrame(live.manifest, index)).toEqual(removeFrame(fresh, index));
        const added = { photo: 'new.jpg' };
        expect(insertFrameAfter(live.manifest, index, added)).toEqual(insertFrameAfter(fresh, index, added));
      }),
      { numRuns: 200 },
    );
  });
});
