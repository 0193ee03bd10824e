import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { TestRepository } from '../history/repository.ts';
import { checkJson, CLEAN, digestsIn, folderWith, HEAD, KNEES, peopleFile, picture, selvedge } from './workspace.ts';

interface ReviewJson {
  readonly since: { readonly commit: string };
  readonly manifest: { readonly name: string; readonly nameThen?: string };
  readonly notes: readonly string[];
  readonly frames: readonly {
    readonly kind: string;
    readonly name: string;
    readonly photoChanged: boolean;
    readonly moved?: { readonly edges: Readonly<Record<string, number>>; readonly words: readonly string[] };
    readonly outputs?: readonly Readonly<Record<string, unknown>>[];
    readonly changes: readonly string[];
    readonly then?: { readonly photo: string; readonly length?: string };
    readonly now?: { readonly photo: string; readonly length?: string };
    readonly findings: { readonly gone: readonly { rule: string }[]; readonly new: readonly { rule: string }[] };
  }[];
  readonly summary: Readonly<Record<string, number>>;
}

async function review(made: TestRepository, manifest: string, since: string, ...more: string[]) {
  const to = folderWith({});
  const { code, out, err } = await selvedge('review', made.path(manifest), '--since', since, '--to', to, ...more);
  const read = (name: string): string => readFileSync(`${to}/${name}`, 'utf8');
  if (!existsSync(`${to}/review.json`)) throw new Error(err);
  expect(out).toContain(`written: ${to}/review.html, review.md and review.json\n`);
  return { code, out, page: read('review.html'), markdown: read('review.md'), json: JSON.parse(read('review.json')) as ReviewJson, to }; // prettier-ignore
}

const PHOTOS = ['a.jpg', 'b.jpg', 'c.jpg', 'd.jpg', 'e.jpg'];
const DIGESTS = Object.fromEntries(PHOTOS.map((photo, at) => [photo, `sha256:${String(at).repeat(64)}`]));

function frameText(photo: string, crop: string, more = ''): string {
  return `  # about ${photo}\n  - photo: ${photo}\n    crop: ${crop}\n${more}`;
}

function manifest(...frames: string[]): string {
  return HEAD + frames.join('\n');
}

function people(photos: Readonly<Record<string, string>>): string {
  return Object.entries(photos)
    .map(([photo, digest]) => peopleFile({ [photo]: 'standing' }, digest))
    .join('');
}

const BEGIN = manifest(...PHOTOS.map((photo) => frameText(photo, photo === 'b.jpg' ? KNEES : CLEAN)));

test('three branches with edits, a rename and a moved manifest: merged without a conflict, and named exactly', async () => {
  const made = new TestRepository({ 'shoot/crops.yaml': BEGIN, 'shoot/crops.people.jsonl': people(DIGESTS) });
  made.git('tag', 'before');
  const edit = (branch: string, from: string, to: string): void => {
    made.git('checkout', '--quiet', '-b', branch, 'before');
    const text = readFileSync(made.path('shoot/crops.yaml'), 'utf8');
    expect(text).toContain(from);
    made.write('shoot/crops.yaml', text.replace(from, to));
    made.commit(branch);
  };
  edit('mend-b', frameText('b.jpg', KNEES), frameText('b.jpg', CLEAN));
  edit('shift-d', frameText('d.jpg', CLEAN), frameText('d.jpg', '{ x: 0.22, y: 0.19, w: 0.6, h: 0.76 }'));
  made.git('checkout', '--quiet', '-b', 'rename-a', 'before');
  made.write('shoot/crops.yaml', BEGIN.replace('photo: a.jpg', 'photo: final/portrait.jpg'));
  const { 'a.jpg': digest, ...others } = DIGESTS;
  made.write('shoot/crops.people.jsonl', people({ ...others, 'final/portrait.jpg': digest! }));
  made.commit('rename-a');
  made.git('checkout', '--quiet', 'main');
  for (const branch of ['mend-b', 'shift-d', 'rename-a']) made.git('merge', '--quiet', '--no-edit', branch);
  const merged = readFileSync(made.path('shoot/crops.yaml'), 'utf8');
  expect(merged).not.toMatch(/^[<>=]{7}/m);

  const { code, json } = await review(made, 'shoot/crops.yaml', 'before');
  expect(code).toBe(0);
  expect(json.summary).toEqual({ changed: 3, added: 0, removed: 0, unchanged: 2 });
  const [a, b, d] = json.frames;
  expect(a).toMatchObject({ kind: 'changed', name: 'final/portrait.jpg', changes: ['the photo was called a.jpg'] });
  expect(a!.moved).toBeUndefined();
  expect(b).toMatchObject({ name: 'b.jpg', then: { length: 'three-quarter' }, now: { length: 'full-length' } });
  expect(b!.findings.gone.filter(({ rule }) => rule === 'joint-cut')).toHaveLength(2);
  expect(b!.findings.new).toEqual([]);
  // 0.02 of 4000 px to the right, 0.01 of 6000 px up.
  expect(d!.name).toBe('d.jpg');
  expect(d!.moved!.words).toEqual(['moved 80 px to the right and 60 px up, the same size']);
  expect(d!.moved!.edges).toEqual({ left: -80, top: 60, right: 80, bottom: -60 });

  // Then the whole session moves, a frame goes and another comes.
  mkdirSync(made.path('archive'));
  made.git('mv', 'shoot', 'archive/harbour');
  const later = merged.replace(frameText('e.jpg', CLEAN), '') + `  - photo: d.jpg\n    crop: ${KNEES}\n`;
  made.write('archive/harbour/crops.yaml', later);
  made.commit('move');
  const moved = await review(made, 'archive/harbour/crops.yaml', 'before');
  expect(moved.json.manifest).toMatchObject({ name: 'archive/harbour/crops.yaml', nameThen: 'shoot/crops.yaml' });
  expect(moved.json.summary).toEqual({ changed: 3, added: 1, removed: 1, unchanged: 1 });
  expect(moved.json.frames.map(({ kind, name }) => `${kind} ${name}`)).toEqual([
    'changed final/portrait.jpg',
    'changed b.jpg',
    'changed d.jpg',
    'added d.jpg#2',
    'removed e.jpg',
  ]);
  // The frame that came cuts the knees: the change brings warnings.
  expect(moved.code).toBe(1);
  expect(moved.markdown).toContain('**`d.jpg#2`**<br>added');
  expect(moved.markdown.split('\n')[1]).toContain('3 frames changed, 1 added, 1 removed; 1 as it was');
});

test('check --since tells only what the change touched, and a change over all frames touches all', async () => {
  const two = manifest(frameText('a.jpg', KNEES), frameText('b.jpg', KNEES), '  - phto: old trouble\n');
  const made = new TestRepository({ 'crops.yaml': two, 'crops.people.jsonl': people(DIGESTS) });
  const names = async (...more: string[]): Promise<string[]> => {
    const { report } = await checkJson(made.path('crops.yaml'), '--since', 'HEAD', ...more);
    return report.manifests[0]!.frames.map((frame) => String(frame['photo']));
  };
  expect(await names()).toEqual([]);
  expect((await selvedge('check', made.path('crops.yaml'), '--since', 'HEAD')).code).toBe(0);
  made.write('crops.yaml', two.replace(frameText('b.jpg', KNEES), frameText('b.jpg', KNEES, '    note: wider?\n')));
  expect(await names()).toEqual(['b.jpg']);
  expect(await names('--shard', '1/2')).toEqual([]);
  expect(await names('--shard', '2/2')).toEqual(['b.jpg']);
  made.write('crops.yaml', two.replace('compose: free', 'compose: centred'));
  expect(await names()).toEqual(['a.jpg', 'b.jpg']);
  made.write('crops.yaml', `# a remark\n${two}`);
  expect(await names()).toEqual([]);
  made.write('crops.people.jsonl', people({ ...DIGESTS, 'a.jpg': `sha256:${'f'.repeat(64)}` }));
  expect(await names()).toEqual(['a.jpg']);
  made.write('new.crops.yaml', two);
  expect((await checkJson(made.path('new.crops.yaml'), '--since', 'HEAD')).report.manifests[0]!.frames).toHaveLength(2);
});

test('a photo that changed since then is known by its digest; the picture of then is drawn', async () => {
  const [old, fresh] = [await picture(40, 60), await picture(42, 60)];
  const sha = async (bytes: Buffer): Promise<string> => {
    const digest = await crypto.subtle.digest('SHA-256', new Uint8Array(bytes));
    return `sha256:${Buffer.from(digest).toString('hex')}`;
  };
  const text = manifest(frameText('a.jpg', CLEAN), frameText('b.jpg', CLEAN));
  const made = new TestRepository({
    'crops.yaml': text,
    'crops.people.jsonl': people({ 'a.jpg': await sha(old), 'b.jpg': await sha(old) }),
    '.gitignore': '*.jpg\n',
  });
  made.write('a.jpg', fresh);
  made.write('b.jpg', old);
  const stale = await review(made, 'crops.yaml', 'HEAD');
  expect(stale.json.frames.map(({ name, photoChanged }) => ({ name, photoChanged }))).toEqual([
    { name: 'a.jpg', photoChanged: true },
  ]);
  expect(stale.json.frames[0]!.findings.new.map(({ rule }) => rule)).toEqual(['stale-measure']);
  expect(stale.page).toContain('drawn: the photo of then is not here');
  made.write('crops.people.jsonl', people({ 'a.jpg': await sha(fresh), 'b.jpg': await sha(old) }));
  const measured = await review(made, 'crops.yaml', 'HEAD');
  expect(measured.json.frames.map(({ name, photoChanged }) => ({ name, photoChanged }))).toEqual([
    { name: 'a.jpg', photoChanged: true },
  ]);
  expect(measured.code).toBe(0);
});

test('a crop that a frame has for one output alone: written, moved and taken away, in words, pictures and JSON', async () => {
  const outputs = 'deliver:\n  square: { aspect: "1:1", long: 800px }\n  tall: { aspect: "2:3", long: 900px }\n';
  const text = (square: string, more = ''): string =>
    HEAD.replace('frames:', `${outputs}frames:`) +
    frameText('a.jpg', CLEAN, `    deliver:\n${square === '' ? '' : `      square: ${square}\n`}${more}`);
  const [first, moved] = ['{ x: 0.1, y: 0.2, w: 0.6, h: 0.4 }', '{ x: 0.15, y: 0.2, w: 0.6, h: 0.4 }'];
  const tall = '      tall: { x: 0.2, y: 0.2, w: 0.6, h: 0.6 }\n';
  const made = new TestRepository({
    'crops.yaml': text(first),
    'crops.people.jsonl': people({ 'a.jpg': DIGESTS['a.jpg']! }),
    '.gitignore': '*.jpg\n',
  });
  made.write('crops.yaml', text(moved, tall));
  const { json, page, markdown } = await review(made, 'crops.yaml', 'HEAD');
  const [frame] = json.frames;
  // 0.05 of 4000 px.
  const words = 'crop for output square: moved 200 px to the right, the same size';
  expect(frame!.changes).toEqual([words, 'a crop of its own for output tall']);
  expect(frame!.moved).toBeUndefined();
  expect(frame!.outputs).toEqual([
    {
      output: 'square',
      then: { x: 0.1, y: 0.2, w: 0.6, h: 0.4 },
      now: { x: 0.15, y: 0.2, w: 0.6, h: 0.4 },
      moved: { edges: { left: -200, right: 200 }, turned: 0, area: 100, words: ['moved 200 px to the right, the same size'] }, // prettier-ignore
    },
    { output: 'tall', now: { x: 0.2, y: 0.2, w: 0.6, h: 0.6 } },
  ]);
  expect(markdown).toContain(words);
  expect(page).toContain('<h3>Output square</h3>');
  for (const label of [
    'for square, the picture as it was',
    'for square, the picture as it is now',
    'for tall, the picture as it is now',
  ]) {
    // prettier-ignore
    expect(page).toContain(`aria-label="a.jpg ${label}`);
  }
  expect(page).not.toContain('for tall, the picture as it was');

  made.commit('moved');
  made.write('crops.yaml', text('', tall));
  const gone = await review(made, 'crops.yaml', 'HEAD');
  expect(gone.json.frames[0]!.changes).toEqual(['no crop of its own for output square any more']);
  made.write('crops.yaml', text(moved, tall).replace('aspect: "1:1"', 'aspect: "4:5"'));
  const asked = await review(made, 'crops.yaml', 'HEAD');
  expect(asked.json.notes).toContain('Changed over all frames: deliver.');
});

test('without the photos it says so and draws; without an old people file it says whose bodies it judges by', async () => {
  const made = new TestRepository({ 'crops.yaml': BEGIN, '.gitignore': '*.jsonl\n' });
  writeFileSync(made.path('crops.people.jsonl'), people(DIGESTS));
  made.write('crops.yaml', BEGIN.replace(KNEES, CLEAN));
  const { json, page, code } = await review(made, 'crops.yaml', 'HEAD');
  expect(code).toBe(0);
  expect(json.notes.join(' ')).toContain('None of the photos is here');
  expect(json.notes.join(' ')).toContain('no people file');
  expect(json.frames.map(({ name }) => name)).toEqual(['b.jpg']);
  expect(page).toContain('<svg class="drawing"');
  expect(page).not.toContain('data:image');
});

test('nothing changed, a file that is not ours, the photos folder, a bad revision, no repository', async () => {
  const made = new TestRepository({ 'x/crops.yaml': BEGIN, 'x/crops.people.jsonl': people(DIGESTS) });
  const same = await review(made, 'x/crops.yaml', 'HEAD');
  expect(same.code).toBe(0);
  expect(same.json.frames).toEqual([]);
  // Its own files are written over, nobody else's.
  const again = await selvedge('review', made.path('x'), '--since', 'HEAD', '--to', same.to);
  expect(again.code).toBe(0);
  const foreign = folderWith({ 'review.md': 'my own notes' });
  const before = digestsIn(made.path('x'));
  const refused = [
    [foreign, 'HEAD', 'was not written by this command'],
    [made.path('x', 'pages'), 'HEAD', 'is the photos folder or lies in it'],
    [made.path('x'), 'HEAD', 'is the photos folder or lies in it'],
    [folderWith({}), '--upload-pack=x', 'is no revision'],
    [folderWith({}), 'nowhere', 'There is no commit'],
  ] as const;
  for (const [to, since, says] of refused) {
    const { code, err } = await selvedge('review', made.path('x'), `--since=${since}`, '--to', to);
    expect([code, err]).toEqual([2, expect.stringContaining(says)]);
  }
  expect(digestsIn(made.path('x'))).toEqual(before);
  expect(readFileSync(`${foreign}/review.md`, 'utf8')).toBe('my own notes');
  rmSync(made.path('.git'), { recursive: true });
  const none = await selvedge('review', made.path('x'), '--since', 'HEAD', '--to', folderWith({}));
  expect([none.code, none.err]).toEqual([2, expect.stringContaining('is in no git repository')]);
});

test('two revisions with each other, in a working tree and in a repository without one', async () => {
  const made = new TestRepository({ 'x/crops.yaml': BEGIN, 'x/crops.people.jsonl': people(DIGESTS) });
  made.git('mv', 'x', 'y');
  made.write('y/crops.yaml', BEGIN.replace(KNEES, CLEAN));
  made.commit('mended and moved');
  made.git('tag', 'later');
  made.write('y/crops.yaml', BEGIN.replaceAll(CLEAN, KNEES));
  made.commit('spoilt');
  const bare = `${folderWith({})}/bare.git`;
  made.git('clone', '--quiet', '--bare', made.folder, bare);
  const here = process.cwd();
  const both: ReviewJson[] = [];
  for (const [folder, path] of [
    [made.folder, made.path('y/crops.yaml')],
    [bare, 'y/crops.yaml'],
  ] as const) {
    const to = folderWith({});
    process.chdir(folder);
    const { code, err } = await selvedge('review', path, '--since', 'later~1', '--at', 'later', '--to', to).finally(
      () => {
        process.chdir(here);
      },
    );
    expect([code, err]).toEqual([0, '']);
    both.push(JSON.parse(readFileSync(`${to}/review.json`, 'utf8')) as ReviewJson);
  }
  for (const { frames, manifest: named, summary } of both) {
    expect(frames.map(({ name }) => name)).toEqual(['b.jpg']);
    expect(named).toMatchObject({ name: 'y/crops.yaml', nameThen: 'x/crops.yaml' });
    expect(summary).toMatchObject({ changed: 1, unchanged: 4 });
  }
});
