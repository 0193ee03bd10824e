import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { extname, join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { packageParts, type Part } from '../../src/tooling/package/make.mjs';
import { PROJECT_FOLDER } from '../truth/support/project.ts';

/** Everything that may be in the package; a part that matches none of these came in by chance. */
const EXPECTED = [
  /^\[Content_Types\]\.xml$/,
  /^extension\.vsixmanifest$/,
  /^extension\/(?:package\.json|README\.md|CHANGELOG\.md|LICENSE\.txt|NOTICES\.txt)$/,
  /^extension\/dist\/(?:extension\.cjs|editor\.cjs|photo-room\.js|workroom\.js|[a-z-]+\.js)$/,
  /^extension\/dist\/models\/[a-z-]+\.onnx$/,
  /^extension\/licences\/L?GPL-3\.0\.txt$/,
  /^extension\/media\/[a-z-]+\.(?:css|svg|png|schema\.json)$/,
  /^extension\/media\/walkthrough\/[a-z-]+\.(?:md|png|jpg|svg)$/,
  /^extension\/src\/rules\/[a-z-]+\/(?:README\.md|[a-z-]+\.svg)$/,
  /^extension\/src\/session\/pages\/[a-z-]+\.md$/,
  new RegExp(`^extension/node_modules/onnxruntime-node/bin/napi-v6/${process.platform}/${process.arch}/[^/]+$`),
  /^extension\/node_modules\/(?:sharp|@img\/[a-z0-9-]+|detect-libc|semver|onnxruntime-(?:common|node|web))\/(?!bin\/)(?:.*\/)?[^/]*(?:\.(?:c|m)?js|\.json|\.wasm|\.node|\.dylib|\.dll|\.so[.\d]*|LICENSE(?:\.md)?)$/,
];
const TEXT = new Set(['.js', '.cjs', '.mjs', '.json', '.md', '.txt', '.css', '.svg', '.xml', '.vsixmanifest']);

describe('the package', () => {
  let parts: readonly Part[];
  let paths: readonly string[];

  beforeAll(async () => {
    parts = await packageParts();
    paths = parts.map(({ path }) => path);
  });

  function textOf(path: string): string {
    const part = parts.find((each) => each.path === path);
    if (!part) throw new Error(`The package has no ${path}.`);
    return 'text' in part ? part.text : readFileSync(part.from, 'utf8');
  }

  test('holds what is expected and nothing else', () => {
    expect(paths.filter((path) => !EXPECTED.some((pattern) => pattern.test(path)))).toEqual([]);
    expect(new Set(paths).size).toBe(paths.length);
  });

  test('holds no tests, sources, source maps, sessions or people', () => {
    const unwanted = /\.(?:ts|map|yaml|jsonl)$|(?:^|\/)(?:test|tests|coverage|sample-workspace)\/|fixture/;
    expect(paths.filter((path) => unwanted.test(path))).toEqual([]);
    // Photographs show people: only the walkthrough's own pictures are there.
    expect(paths.filter((path) => /\.(?:jpe?g|png|webp|heic|tiff?)$/.test(path) && !path.includes('/media/'))).toEqual(
      [],
    );
  });

  test('says nothing of the machine that made it', () => {
    const tells = parts.filter(({ path }) => {
      if (!TEXT.has(extname(path))) return false;
      const text = textOf(path);
      return text.includes(PROJECT_FOLDER) || text.includes(`${homedir()}/`) || text.includes('sourceMappingURL=');
    });
    // What libraries bring is published as it is.
    expect(tells.map(({ path }) => path).filter((path) => !path.includes('/node_modules/'))).toEqual([]);
  });

  test('holds every file that its manifest, its findings and its workroom name', () => {
    const manifest = JSON.parse(textOf('extension/package.json')) as {
      main: string;
      contributes: {
        yamlValidation: { url: string }[];
        walkthroughs?: { steps: { media: Record<string, string> }[] }[];
      };
    };
    const { yamlValidation, walkthroughs = [] } = manifest.contributes;
    const media = walkthroughs.flatMap(({ steps }) => steps.flatMap((step) => Object.entries(step.media)));
    const named = [
      manifest.main,
      'dist/editor.cjs',
      'dist/photo-room.js',
      'dist/workroom.js',
      ...yamlValidation.map(({ url }) => url.replace(/^\.\//, '')),
      ...media.filter(([kind]) => kind !== 'altText').map(([, path]) => path),
      ...readdirSync(join(PROJECT_FOLDER, 'dist', 'models')).filter((name) => name.endsWith('.onnx')).map((name) => `dist/models/${name}`), // prettier-ignore
      ...readdirSync(join(PROJECT_FOLDER, 'src', 'rules'))
        .filter((name) => existsSync(join(PROJECT_FOLDER, 'src', 'rules', name, 'README.md')))
        .map((name) => `src/rules/${name}/README.md`),
      ...readdirSync(join(PROJECT_FOLDER, 'src', 'session', 'pages')).map((name) => `src/session/pages/${name}`),
    ];
    expect(named.filter((path) => !paths.includes(`extension/${path}`))).toEqual([]);
    expect(Object.keys(manifest)).not.toContain('scripts');
    expect(Object.keys(manifest)).not.toContain('dependencies');
  });

  test('holds the pictures that its pages show', () => {
    for (const path of paths.filter((each) => /\/src\/rules\/.*README\.md$/.test(each))) {
      const folder = path.slice(0, path.lastIndexOf('/'));
      for (const [, picture] of textOf(path).matchAll(/!\[[^\]]*\]\(([^)]+)\)/g)) {
        expect(paths).toContain(`${folder}/${picture!}`);
      }
    }
  });

  test('has a licence text for every library in it', () => {
    const notices = textOf('extension/NOTICES.txt');
    // Found in the bundles: yaml and fastest-levenshtein are imported by src.
    for (const name of ['yaml', 'fastest-levenshtein']) {
      expect(notices).toMatch(new RegExp(`^${name} \\d`, 'm'));
    }
    const vendored = paths.flatMap((path) => /^extension\/node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? []);
    for (const name of new Set(vendored)) expect(notices).toContain(`\n${name} `);
    if (vendored.some((name) => name.includes('libvips'))) {
      expect(textOf('extension/licences/LGPL-3.0.txt')).toContain('GNU LESSER GENERAL PUBLIC LICENSE');
      expect(textOf('extension/licences/GPL-3.0.txt')).toContain('GNU GENERAL PUBLIC LICENSE');
    }
  });

  test('has a README that needs no other file, and says that pictures of people are personal data', () => {
    const readme = textOf('extension/README.md');
    const targets = [...readme.matchAll(/\]\(([^)]+)\)/g)].map(([, target]) => target!.slice(0, 40));
    expect(targets.filter((target) => !/^(?:https:|data:image\/|#)/.test(target))).toEqual([]);
    expect(readme).toContain('personal data');
  });

  test('has a kind for every part (ECMA-376 part 2, 10.1.2: each part has a content type)', () => {
    const types = textOf('[Content_Types].xml');
    for (const path of paths.filter((each) => each !== '[Content_Types].xml')) {
      const end = extname(path).slice(1);
      expect(types).toContain(end === '' ? `PartName="/${path}"` : `Extension="${end}"`);
    }
  });

  test('is less than 150 MB when it is unpacked', () => {
    const bytes = parts.reduce((sum, part) => sum + ('text' in part ? part.text.length : statSync(part.from).size), 0);
    expect(bytes).toBeLessThan(150e6);
  });
});
