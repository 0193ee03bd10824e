import { join } from 'node:path';
import { expect, test } from 'vitest';
import { escapeMarkdown } from '../../src/report/markdown/escape.ts';
import { CLEAN, HEAD, KNEES, measuredSession, selvedge } from './workspace.ts';

async function markdown(manifest: string, photos?: readonly string[]): Promise<{ code: number; out: string }> {
  return selvedge('check', '--format', 'markdown', join(measuredSession(manifest, photos), 'crops.yaml'));
}

test('the summary first, then frames, worst first; clean frames and hints are only counted', async () => {
  const { code, out } = await markdown(
    `${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n  - photo: b.jpg\n    crop: ${CLEAN}\n  - photo: c.jpg\n    crop: { x: 0.6, y: 0.2, w: 0.6, h: 0.76 }\n`,
    ['a.jpg', 'b.jpg', 'c.jpg'],
  );
  expect(code).toBe(1);
  const lines = out.split('\n');
  expect(lines[0]).toMatch(/^### Crops: 3 frames: \d error/);
  expect(lines.findIndex((line) => line.includes('`c.jpg`'))).toBeLessThan(
    lines.findIndex((line) => line.includes('`a.jpg`')),
  );
  expect(out).not.toContain('b.jpg');
  expect(out).toContain('(`joint-cut`)');
  const clean = await markdown(`${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n`);
  expect(clean.code).toBe(0);
  expect(clean.out).toBe('### Crops: 1 frame: 0 errors, 0 warnings, 1 hint\n\nNothing at warning or above.\n');
});

test('at most 60 kB of UTF-8, and it says how many rows are left out', async () => {
  const frames = Array.from({ length: 1500 }, (_, place) => `  - photo: "桟橋の夕方-${place}.jpg"\n`).join('');
  const { out } = await markdown(`${HEAD}${frames}`);
  expect(Buffer.byteLength(out)).toBeLessThanOrEqual(60_000);
  expect(Buffer.byteLength(out)).toBeGreaterThan(55_000);
  const [, left] = /… and (\d+) more rows like these/.exec(out) ?? [];
  const rows = out.split('\n').filter((line) => line.startsWith('| **')).length;
  expect(rows + Number(left)).toBe(1500);
});

test('a hostile name is one cell of code: no markup, no mention, no link, no new row', async () => {
  const name = 'x`|<img src=x onerror=alert(1)>[y](https://example.org)@everyone.jpg';
  const { out } = await markdown(`${HEAD}  - photo: ${JSON.stringify(name)}\n`);
  const row = out.split('\n').find((line) => line.startsWith('| **'))!;
  // Bars that are not escaped part the cells: four of them for three cells.
  expect(row.replaceAll('\\|', '').match(/\|/g)).toHaveLength(4);
  const message = row.split(' | ').at(-1)!;
  expect(message).not.toMatch(/<img|@everyone|https:\/\/|\]\(/);
});

// What they would be on the page of a pull request (CommonMark 0.31.2; mentions and references: from memory).
test.each([
  ['markup', '*a* _b_ `c` [d](e) ![f](g) ~~h~~', ['*a*', '_b_', '`c`', '](', '~~']],
  ['HTML', '<script>&amp;</script>', ['<script>', '&amp;</']],
  ['a mention', 'by @somebody', ['@somebody']],
  ['a reference', 'closes #12', ['#12']],
  ['a bare link', 'https://example.org and www.example.org', ['://', 'www.']],
  ['a new line', 'a\n# b', ['\n']],
])('%s in a message is text', (_, text, never) => {
  const shown = escapeMarkdown(text);
  for (const piece of never) expect(shown.replaceAll(/\\./g, '\\')).not.toContain(piece);
});
