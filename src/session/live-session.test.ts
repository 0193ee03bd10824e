import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { generatedSession } from '../../tests/scenes/session.ts';
import { editsOf, steps, tidyManifest, type Step } from '../manifest/edit-samples.ts';
import { sample } from '../manifest/manifest-samples.ts';
import { parseManifest } from '../manifest/parse.ts';
import { parsePeopleFile } from '../people/people-file.ts';
import { PeopleReader } from '../people/people-reader.ts';
import { configurationOf, RULE_CATALOGUE } from './file-rules.ts';
import { LiveSession } from './live-session.ts';
import type { PhotoState } from './photo-states.ts';
import type { PhotosFolder } from './photos-folder.ts';

interface Content {
  readonly text: string;
  readonly people: string;
  readonly states: ReadonlyMap<string, PhotoState>;
  readonly photosFolder: PhotosFolder;
}

function open({ text, people, states, photosFolder }: Content): LiveSession {
  const manifest = parseManifest(text, RULE_CATALOGUE);
  const session = {
    path: 'crops.yaml',
    peoplePath: 'crops.people.jsonl',
    manifest,
    configuration: configurationOf(manifest),
    people: parsePeopleFile(people),
    photosFolder,
  };
  return new LiveSession(session, states);
}

/** Everything that is found, without yaml's nodes. */
async function found(live: LiveSession): Promise<unknown> {
  const { session, findings, frames } = await live.check();
  const manifest = { ...session.manifest, written: undefined, writtenFrames: undefined };
  return { session: { ...session, manifest }, findings, frames };
}

const HERE: PhotosFolder = { path: '/photos' };
const NOWHERE: Content = { text: '', people: '', states: new Map(), photosFolder: HERE };

/** People of photos that the sample manifests name. */
const LINES = generatedSession(8)
  .people.trim()
  .split('\n')
  .map((line, index) => line.replace(/"photo":"[^"]*"/, `"photo":"${index}é.jpg"`));
const OTHER_NAMES = ['a.jpg', '0142.jpg', 'Möwe.jpg'];
const MORE_LINES = [
  ...LINES,
  ...LINES.map((line) => line.replaceAll('"source":"model"', '"source":"hand"')),
  ...OTHER_NAMES.map((name, index) => LINES[index]!.replace(/"photo":"[^"]*"/, `"photo":"${name}"`)),
  LINES[0]!.replace('"nose"', '"snout"'),
  '{"photo":"1é.jpg","size":[4000,6000],"people":[]}',
  '{"photo":"2é.jpg","size":[4000,600',
  'no JSON',
  '',
];

type Change =
  | { readonly kind: 'text'; readonly step: Step }
  | { readonly kind: 'people'; readonly at: number; readonly take: number; readonly put: string | undefined }
  | { readonly kind: 'photo'; readonly photo: string; readonly state: PhotoState | undefined }
  | { readonly kind: 'folder'; readonly folder: PhotosFolder };

const size = { width: 4000, height: 6000 };
const change: fc.Arbitrary<Change> = fc.oneof(
  { weight: 6, arbitrary: steps(1).map(([step]): Change => ({ kind: 'text', step: step! })) },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant('people' as const),
      at: fc.nat(12),
      take: fc.nat(2),
      put: fc.option(fc.constantFrom(...MORE_LINES), { nil: undefined }),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant('photo' as const),
      photo: fc.constantFrom(...LINES.map((_, index) => `${index}é.jpg`), ...OTHER_NAMES),
      state: fc.constantFrom<PhotoState | undefined>(
        { kind: 'present', path: 'somewhere', size },
        { kind: 'changed', path: 'somewhere', size },
        { kind: 'absent' },
        { kind: 'unusable', message: 'It is not a picture.' },
        undefined,
      ),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom<Change>(
      { kind: 'folder', folder: HERE },
      { kind: 'folder', folder: { refused: 'no.' } },
    ),
  },
);

/** Makes a change in a live session; gives the content that a fresh one would be opened with, after each edit. */
function* make(changed: Change, content: Content, live: LiveSession, reader: PeopleReader): Iterable<Content> {
  switch (changed.kind) {
    case 'text':
      for (const edit of editsOf(changed.step, live.text)) {
        live.edit(edit);
        yield { ...content, text: live.text };
      }
      break;
    case 'people': {
      const lines = content.people.split('\n');
      lines.splice(changed.at, changed.take, ...(changed.put === undefined ? [] : [changed.put]));
      const people = lines.join('\n');
      live.setPeople(reader.read(people));
      yield { ...content, people };
      break;
    }
    case 'photo': {
      const states = new Map(content.states);
      live.setPhotoState(changed.photo, changed.state);
      if (changed.state) states.set(changed.photo, changed.state);
      else states.delete(changed.photo);
      yield { ...content, states };
      break;
    }
    case 'folder':
      live.setPhotosFolder(changed.folder);
      yield { ...content, photosFolder: changed.folder };
  }
}

describe('a session that is being edited', () => {
  it('finds at every moment what a fresh check finds', async () => {
    const manifests = fc.oneof(
      { weight: 3, arbitrary: tidyManifest },
      { weight: 1, arbitrary: sample.map(({ text }) => text) },
    );
    await fc.assert(
      fc.asyncProperty(manifests, fc.array(change, { minLength: 1, maxLength: 8 }), async (text, changes) => {
        let content: Content = { ...NOWHERE, text, people: LINES.join('\n') };
        const live = open(content);
        const reader = new PeopleReader();
        for (const each of changes) {
          for (const next of make(each, content, live, reader)) {
            content = next;
            expect(await found(live)).toEqual(await found(open(content)));
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it('finds in each frame alone what it finds in all', async () => {
    await fc.assert(
      fc.asyncProperty(tidyManifest, fc.array(change, { minLength: 1, maxLength: 5 }), async (text, changes) => {
        let content: Content = { ...NOWHERE, text, people: LINES.join('\n') };
        const live = open(content);
        const reader = new PeopleReader();
        for (const each of changes) for (const next of make(each, content, live, reader)) content = next;
        const { frames } = await open(content).check();
        expect(live.frameCount).toBe(frames.length);
        for (const [place, { findings }] of frames.entries()) expect(live.frameFindings(place)).toEqual(findings);
      }),
      { numRuns: 50 },
    );
  });
});

const THREE = generatedSession(3);
const CONTENT: Content = { text: THREE.manifest, people: THREE.people, states: new Map(), photosFolder: HERE };

/** Which frames were checked again: their crops are new objects. */
function checkedAgain(live: LiveSession, changing: () => void): number[] {
  const crops = (): unknown[] => Array.from({ length: live.frameCount }, (_, place) => live.frameCheck(place).crop);
  const before = new Set(crops());
  changing();
  return crops().flatMap((crop, place) => (before.has(crop) ? [] : [place]));
}

function replace(live: LiveSession, what: RegExp, by: string): number | undefined {
  const match = what.exec(live.text)!;
  return live.edit({ start: match.index, end: match.index + match[0].length, text: by });
}

describe('what is checked again', () => {
  it.each<[string, number[], (live: LiveSession) => void]>([
    ['a number of one frame', [0], (live) => replace(live, /(?<=w: )[\d.]+/, '0.5')],
    ['a note between frames', [], (live) => replace(live, / {2}- photo: 00002/, '  # two lines\n  # of notes\n$&')],
    ['a comment in the header', [], (live) => replace(live, /Generated/, 'Made')],
    ['the session’s name', [], (live) => replace(live, /late light/, 'early light')],
    ['the composition of the session', [0, 1, 2], (live) => replace(live, /aspect: original/, '$&\ncompose: centred')],
    ['a rule', [0, 1, 2], (live) => replace(live, /placement: off/, 'placement: info')],
    ['a new frame in front', [0], (live) => replace(live, /(?<=frames:\n)/, '  - photo: 00009.jpg\n')],
    ['broken YAML that is mended', [0], (live) => {
      replace(live, /(?<=crop: )\{/, '{{');
      live.frameCheck(1);
      replace(live, /\{\{/, '{');
    }],
    ['one line of the people file', [1], (live) => {
      const lines = THREE.people.split('\n');
      lines[1] = lines[1]!.replace('"id":2', '"id":3');
      live.setPeople(parsePeopleFile(lines.join('\n')));
    }],
    ['the order of the people file', [], (live) => {
      live.setPeople(parsePeopleFile(THREE.people.trim().split('\n').reverse().join('\n')));
    }],
    ['the state of one photo among many', [2], (live) => {
      live.setPhotoState('00003.jpg', { kind: 'unusable', message: 'It is empty.' });
    }],
    ['the same state again', [], (live) => { live.setPhotoState('00001.jpg', { kind: 'present', path: 'somewhere' }); }],
  ])('%s: %j', (_, places, changing) => {
    const live = open({ ...CONTENT, states: new Map([['00001.jpg', { kind: 'present', path: 'somewhere' }]]) });
    expect(checkedAgain(live, () => { changing(live); })).toEqual(places);
  }); // prettier-ignore

  it('says which frame an edit changes', () => {
    const live = open(CONTENT);
    expect(replace(live, /(?<=00002.jpg\n {4}crop: \{ x: )[\d.]+/, '0.01')).toBe(1);
    expect(replace(live, /late light/, '"late light"')).toBeUndefined();
  });
});

describe('a whole check', () => {
  const many = generatedSession(60);
  const content: Content = { ...CONTENT, text: many.manifest, people: many.people };

  it('takes in what changes while it breathes', async () => {
    const live = open(content);
    const checking = live.check();
    let edits = 0;
    const typing = setInterval(() => {
      if (edits++ < 3) replace(live, /(?<=h: )[\d.]+/, `0.6${edits}`);
    }, 1);
    const { session, frames } = await checking;
    clearInterval(typing);
    const fresh = open({ ...content, text: session.manifest.text });
    expect(frames).toEqual((await fresh.check()).frames);
  });

  it('has all that is found without the crops of outputs, and those', async () => {
    const live = open(content);
    const first = (await live.checkMainCrops()).frames;
    const whole = (await live.check()).frames;
    expect(whole.some(({ findings }) => findings.some(({ output }) => output === 'album'))).toBe(true);
    expect(first.some(({ findings }) => findings.length > 0)).toBe(true);
    for (const [index, { findings }] of first.entries()) {
      expect(whole[index]!.findings).toEqual(expect.arrayContaining([...findings]));
      const own = whole[index]!.findings.filter(({ output, rule }) => output === undefined && rule !== 'unused-allow');
      expect(findings).toEqual(own);
    }
  });

  it('stops when it is told to, and keeps what it has', async () => {
    const live = open(content);
    const reason = new Error('enough');
    await expect(live.check(AbortSignal.abort(reason))).rejects.toBe(reason);
    expect((await live.check()).frames).toEqual((await open(content).check()).frames);
  });
});

it('tells the problems of an entry that is no frame', async () => {
  const text = 'selvedge: 1\nframes:\n  - crop: { x: 0, y: 0, w: 1, h: 1 }\n  - photo: a.jpg\n';
  const { findings } = await open({ ...NOWHERE, text }).check();
  expect(findings.map(({ rule, range }) => [rule, range.start])).toEqual([['manifest', text.indexOf('crop')]]);
});
