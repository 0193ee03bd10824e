import type { Random } from '../scenes/random.ts';

/** Values that have broken programs before: no number, no text, too deep, too long, obeyed by terminals. */
export const NASTY: readonly string[] = [
  '.nan', '-.inf', '1e999', '-0', '0x7fffffff', '1e-320', '99999999999999999999', 'null', '~', '""', "''", '[]', '{}', 'true',
  '[[[[[[]]]]]]', '{a: {b: {c: }}}', '*a', '&a', '&a [*a]', '<<: *a', '!!binary aGk=', '!!js/function x', '2024-01-01',
  '"\\e[2J"', '"\\0"', '"\\u202e"', '../..', '/etc/passwd', 'C:\\x', "'it''s'", '"', "'", '|', '>-', '---', '...', '%', '@', '`',
  '#', '- - -', '? x', ':', '\t', '\u0000', '\u001b[31m', '\ufeff', '\ud800', 'é', '🌊', '__proto__', 'constructor', '1,5',
  '<<<<<<< ours', '=======', '>>>>>>> theirs',
]; // prettier-ignore

/** One to six changes of a text of lines; most keep it nearly right, which reaches deeper than noise. */
export function mutateLines(text: string, random: Random): string {
  let lines = text.split('\n');
  for (let changes = 1 + Math.floor(random.unit() * 6); changes > 0; changes--) {
    const at = Math.floor(random.unit() * lines.length);
    lines = random.pick(LINE_CHANGES)(lines, at, random);
  }
  const changed = lines.join('\n');
  if (random.chance(0.1)) return changed.replaceAll('\n', '\r\n');
  if (random.chance(0.05)) return changed.slice(0, Math.floor(random.unit() * changed.length));
  return changed;
}

type LineChange = (lines: readonly string[], at: number, random: Random) => string[];

const LINE_CHANGES: readonly LineChange[] = [
  // A value becomes something else.
  (lines, at, random) =>
    withLine(
      lines,
      at,
      lines[at]!.replace(/: .*$/, () => `: ${random.pick(NASTY)}`),
    ),
  (lines, at, random) =>
    withLine(
      lines,
      at,
      lines[at]!.replace(/[-.\d]+(?=[ ,}])/, () => random.pick(NASTY)),
    ),
  // A key becomes something else.
  (lines, at, random) =>
    withLine(
      lines,
      at,
      lines[at]!.replace(/[a-z-]+:/, () => `${random.pick(NASTY)}:`),
    ),
  (lines, at) => [...lines.slice(0, at), ...lines.slice(at + 1)],
  (lines, at) => [...lines.slice(0, at), lines[at]!, ...lines.slice(at)],
  (lines, at, random) => [...lines.slice(0, at), random.pick(NASTY), ...lines.slice(at)],
  (lines, at, random) => withLine(lines, at, ' '.repeat(Math.floor(random.unit() * 8)) + lines[at]!.trimStart()),
  (lines, at) => withLine(lines, at, lines[at]!.replace(/^ +/, '\t')),
  (lines, at, random) => swapped(lines, at, Math.floor(random.unit() * lines.length)),
  // One character is lost, doubled or changed.
  (lines, at, random) => withLine(lines, at, mutateCharacters(lines[at]!, random)),
  (lines, at, random) => withLine(lines, at, lines[at]! + random.pick([' ', '#', '}', ']', '"', ' # x', ','])),
  // Very many of something.
  (lines, at, random) =>
    random.chance(0.1)
      ? withLine(lines, at, lines[at]! + random.pick(['[', '{', '- ', ' ', 'a', '"', '\u0000']).repeat(20_000))
      : [...lines],
];

/** Inserts, removes or replaces a few characters anywhere. */
export function mutateCharacters(text: string, random: Random): string {
  let changed = text;
  for (let changes = 1 + Math.floor(random.unit() * 3); changes > 0; changes--) {
    const at = Math.floor(random.unit() * (changed.length + 1));
    const removed = random.chance(0.6) ? 1 : 0;
    const added = random.chance(0.6) ? random.pick(NASTY) : '';
    changed = changed.slice(0, at) + added + changed.slice(at + removed);
  }
  return changed;
}

function withLine(lines: readonly string[], at: number, line: string): string[] {
  return lines.map((other, index) => (index === at ? line : other));
}

function swapped(lines: readonly string[], one: number, other: number): string[] {
  return lines.map((line, index) => (index === one ? lines[other]! : index === other ? lines[one]! : line));
}
