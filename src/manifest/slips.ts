import type { Fault } from './compose.ts';
import { isItem, keyOf } from './lines.ts';

/** A line that is longer is nobody's slip of the hand. */
const LONGEST = 400;

/** Keys that stand in a manifest: whoever forgets a colon or a space has begun with one of them. */
const KEYS =
  'selvedge|session|photos|aspect|compose|rules|deliver|frames|photo|crop|straighten|length|subjects|allow|note|final';
const KEY_WITHOUT_SPACE = new RegExp(`^(?:- *)?(${KEYS}):([^\\s/].*)$`);
const KEY_WITHOUT_COLON = new RegExp(`^(?:- +)?(${KEYS})(?: +([^\\s:=].*))?$`);
const SECOND_KEY = new RegExp(`: .*\\s(${KEYS}): `);

interface Row {
  readonly indent: number;
  /** Without indentation and what is behind a `#`. */
  readonly content: string;
}

/** What a fault of the YAML sees: its line, those beside it, and where in its line it stands. */
interface Seen {
  readonly line: Row;
  readonly before: Row | undefined;
  readonly after: Row | undefined;
  /** The line up to the fault. */
  readonly upTo: string;
  readonly fault: Fault;
}

/**
 * The slip of the hand that probably caused a fault, told by the text around it: what is missing, and what to write.
 * @returns undefined when it is none of the usual ones
 */
export function slipOf(fault: Fault, text: string): string | undefined {
  const seen = look(fault, text);
  if (!seen) return undefined;
  for (const ask of SLIPS) {
    const told = ask(seen);
    if (told !== undefined) return told;
  }
  return undefined;
}

const SLIPS: readonly ((seen: Seen) => string | undefined)[] = [
  ({ line }) => {
    const [, key, value] = KEY_WITHOUT_SPACE.exec(line.content) ?? [];
    return key && value && `a space is missing after the colon: write "${key}: ${value}"`;
  },
  ({ line }) => {
    const [, rest] = /^-([^\s-].*)$/.exec(line.content) ?? [];
    return rest && `a space is missing after the dash: write "- ${rest}"`;
  },
  ({ line, fault }) => {
    if (fault.code !== 'NO_KEY' && fault.code !== 'MULTILINE_IMPLICIT_KEY') return undefined;
    const [, key, value] = KEY_WITHOUT_COLON.exec(line.content) ?? [];
    return key && `a colon is missing after ${key}: write "${key}:${value === undefined ? '' : ` ${value}`}"`;
  },
  ({ before, fault }) => {
    if (fault.code !== 'MULTILINE_IMPLICIT_KEY') return undefined;
    const [, key, value] = (before && KEY_WITHOUT_COLON.exec(before.content)) ?? [];
    return key && value === undefined
      ? `a colon is missing after ${key} in the line above: write "${key}:"`
      : undefined;
  },
  ({ line, before }) =>
    before && isItem(line.content) && keyOf(before.content) === 'photo' && before.indent === line.indent
      ? `a dash is missing in the line above: write "- ${before.content}"`
      : undefined,
  ({ line, fault }) =>
    isOfIndentation(fault) && keyOf(line.content) === 'photo' && line.indent < 4
      ? `a dash is missing: every frame begins with one; write "- ${line.content}"`
      : undefined,
  ({ fault, line, before }) =>
    fault.code === 'MISSING_CHAR' && before && keyOf(line.content) !== undefined
      ? unevenWords('this line', before)
      : undefined,
  ({ fault }) =>
    fault.code === 'BLOCK_IN_FLOW'
      ? 'a comma is missing between two values: write { x: 0.1, y: 0.06, w: 0.8, h: 0.8 }'
      : undefined,
  ({ fault, line }) => {
    if (fault.code !== 'BAD_SCALAR_START') return undefined;
    const [, value] = /:\s+(.+)$/.exec(line.content) ?? [];
    return value && `no text without quotes begins with ${value.charAt(0)}: write "${value}"`;
  },
  ({ line, upTo, fault }) => {
    const value = line.content.slice(line.content.indexOf(': ') + 2);
    return fault.code === 'UNEXPECTED_TOKEN' && /["']\s*$/.test(upTo) && /^["']/.test(value)
      ? 'the text goes on after its closing quote: an apostrophe stands in double quotes, as in "it\'s late"'
      : undefined;
  },
  ({ upTo, fault }) =>
    fault.code === 'UNEXPECTED_TOKEN' && /:\s*[|>]\s*$/.test(upTo)
      ? 'text behind | or > begins in the next line: take the sign out, or put the text in quotes'
      : undefined,
  ({ line }) => bracketWords(line.content),
  ({ line, fault }) => {
    if (fault.code !== 'BLOCK_AS_IMPLICIT_KEY') return undefined;
    const [, key] = SECOND_KEY.exec(line.content) ?? [];
    return key && `${key}: begins a line of its own: put it under the key before it`;
  },
  ({ line, fault }) => {
    const [, key, value] = /^(?:- +)?([\w/-]+): +([^"'{[].*: .*)$/.exec(line.content) ?? [];
    return fault.code === 'BLOCK_AS_IMPLICIT_KEY' && key && value
      ? `text with a colon and a space in it needs quotes: write ${key}: "${value.replaceAll('"', "'")}"`
      : undefined;
  },
  ({ line, after, fault }) => {
    if (fault.code !== 'BLOCK_AS_IMPLICIT_KEY' || !after || keyOf(after.content) === undefined) return undefined;
    return after.indent > keyIndent(line) ? unevenWords('the next line', line) : undefined;
  },
  ({ line, before, fault }) =>
    isOfIndentation(fault) && before && isItem(line.content) && line.indent !== before.indent
      ? 'this dash does not stand under the dash of the frame before it: begin both with as many spaces'
      : undefined,
];

function isOfIndentation({ code }: Fault): boolean {
  return (
    code === 'BAD_INDENT' || code === 'BLOCK_AS_IMPLICIT_KEY' || code === 'MISSING_CHAR' || code === 'UNEXPECTED_TOKEN'
  );
}

function unevenWords(which: string, above: Row): string {
  return `${which} does not stand under the key above it: begin it with ${keyIndent(above)} spaces, as the other keys of its frame`;
}

/** Where the key of a line begins: behind the dash of an entry. */
function keyIndent({ indent, content }: Row): number {
  return indent + (/^- +/.exec(content)?.[0].length ?? 0);
}

function bracketWords(content: string): string | undefined {
  const plain = content.replace(/"[^"]*"|'[^']*'/g, '');
  const count = (mark: string): number => plain.split(mark).length - 1;
  for (const [open, close, name] of [
    ['{', '}', 'brace'],
    ['[', ']', 'bracket'],
  ] as const) {
    if (count(open) > count(close)) return `the closing ${name} ${close} is missing`;
    if (count(close) > count(open)) return `there is a closing ${name} ${close} too many`;
  }
  return /,\s*,/.test(plain) && /[{[]/.test(plain) ? 'there is a comma too many' : undefined;
}

function look(fault: Fault, text: string): Seen | undefined {
  const at = Math.min(fault.start, text.length);
  const start = text.lastIndexOf('\n', at - 1) + 1;
  const line = rowAt(text, start);
  if (!line) return undefined;
  return {
    line,
    before: neighbour(text, start, -1),
    after: neighbour(text, start, 1),
    upTo: text.slice(start, at),
    fault,
  };
}

/** The next line in that direction that says anything. */
function neighbour(text: string, from: number, step: 1 | -1): Row | undefined {
  let start = from;
  for (let tried = 0; tried < 20; tried++) {
    const next = step === 1 ? text.indexOf('\n', start) + 1 : start === 0 ? -1 : text.lastIndexOf('\n', start - 2) + 1;
    if (next < 0 || (step === 1 && (next === 0 || next >= text.length))) return undefined;
    start = next;
    const row = rowAt(text, start);
    if (row && row.content !== '') return row;
  }
  return undefined;
}

function rowAt(text: string, start: number): Row | undefined {
  const lineBreak = text.indexOf('\n', start);
  const raw = text.slice(start, lineBreak === -1 ? text.length : lineBreak);
  if (raw.length > LONGEST) return undefined;
  const content = raw.trim().replace(/(?:^|\s+)#.*$/, '');
  return { indent: /^ */.exec(raw)![0].length, content };
}
