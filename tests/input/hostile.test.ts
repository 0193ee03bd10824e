import { createHash } from 'node:crypto';
import { lstatSync, readdirSync, readFileSync, readlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { folderWith, selvedge } from '../cli/workspace.ts';
import { CROPS } from './rows/crops.ts';
import { FILES } from './rows/files.ts';
import { HOPELESS } from './rows/hopeless.ts';
import { NAMES } from './rows/names.ts';
import { PEOPLE_LINES } from './rows/people.ts';
import { PEOPLE, type Row } from './rows/row.ts';
import { TEXTS } from './rows/texts.ts';
import { VALUES } from './rows/values.ts';

const TABLES: Readonly<Record<string, readonly Row[]>> = {
  'crops that no frame can have': CROPS,
  'values that no frame can have': VALUES,
  'broken and hostile manifests': TEXTS,
  'manifests that are none': HOPELESS,
  'photos that lead out, or nowhere': NAMES,
  'files that are something else': FILES,
  'broken people files': PEOPLE_LINES,
};

test('the tables hold what was promised, each row once', () => {
  const names = Object.values(TABLES).flatMap((rows) => rows.map(({ name }) => name));
  expect(names.length).toBeGreaterThanOrEqual(120);
  expect(new Set(names).size).toBe(names.length);
});

for (const [title, rows] of Object.entries(TABLES)) {
  describe(title, () => {
    test.each(rows.map((row) => [row.name, row] as const))('%s', async (_, row) => {
      const folder = folderWith({ 'crops.people.jsonl': PEOPLE, ...row.files });
      await row.prepare?.(folder);
      const before = contentOf(folder);
      const argv = row.argv ?? ['check', 'crops.yaml'];

      const { code, said } = await ask(folder, argv);
      for (const words of row.says) expect(said).toContain(words);
      expect(code).toBe(row.exit);
      if (row.others !== 'unreadable') expect(soundFindings(said)).toHaveLength(2);
      expect(contentOf(folder)).toEqual(before);

      if (row.others === 'unreadable') {
        if (row.argv === undefined) expect((await ask(folder, ['fix', 'crops.yaml'])).code).toBe(2);
        expect(contentOf(folder)).toEqual(before);
        return;
      }
      expect((await ask(folder, ['fix', '--dry-run', 'crops.yaml'])).code).toBeLessThan(2);
      expect(contentOf(folder)).toEqual(before);
      expect((await ask(folder, ['fix', 'crops.yaml'])).code).toBeLessThan(2);
      const manifest = readFileSync(join(folder, 'crops.yaml'), 'utf8');
      expect(withoutCrops(manifest)).toEqual(withoutCrops(String(row.files['crops.yaml'])));
      for (const comment of ['# told by the client: no feet', '# keep me', '# and me'])
        expect(manifest).toContain(comment);
      const left = row.fix === 'leaves' ? 2 : 0;
      expect(soundFindings((await ask(folder, ['check', 'crops.yaml'])).said)).toHaveLength(left);
    });
  });
}

/** Runs a command in the folder; whatever it says, it must not be a trace of the program or obeyed by a terminal. */
async function ask(folder: string, argv: readonly string[]): Promise<{ readonly code: number; readonly said: string }> {
  const isFile = (word: string): boolean => word.includes('.') || word.includes('/');
  const { code, out, err } = await selvedge(...argv.map((word) => (isFile(word) ? join(folder, word) : word)));
  const said = (out + err).replaceAll(`${folder}/`, '');
  expect(said).not.toMatch(/\n\s+at |should not have happened|Error:|undefined|\[object/);
  expect(said).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]/);
  expect([0, 1, 2]).toContain(code);
  return { code, said };
}

/** What is told of the sound frame: two knees. */
function soundFindings(said: string): string[] {
  const [, ofGood = ''] = said.split(/^good\.jpg, .*$/m);
  return ofGood.split('\n').filter((found) => /The lower edge cuts the (left|right) knee of person 1/.test(found));
}

/** The manifest's lines but for those that a fix may change. */
function withoutCrops(manifest: string): string[] {
  return manifest.split('\n').filter((line) => !/^\s+crop:/.test(line));
}

/** What lies in the folder, byte for byte; of links where they lead, of others what they are. */
function contentOf(folder: string): Readonly<Record<string, string>> {
  const names = (readdirSync(folder, { recursive: true }) as string[]).sort();
  return Object.fromEntries(names.map((name) => [name, describeEntry(join(folder, name))]));
}

function describeEntry(path: string): string {
  const entry = lstatSync(path);
  if (entry.isSymbolicLink()) return `leads to ${readlinkSync(path)}`;
  if (!entry.isFile()) return entry.isDirectory() ? 'a folder' : 'something else';
  if (entry.size > 60_000_000) return `${entry.size} bytes of ${entry.mtimeMs}`;
  return createHash('sha256').update(readFileSync(path)).digest('hex');
}
