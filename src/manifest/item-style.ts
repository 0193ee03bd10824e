import type { Node } from 'yaml';
import { isMap } from 'yaml';
import { flowText, newCrop } from './new-value.ts';
import { indentOf, ownPair } from './places.ts';
import { startOf, styleOf } from './ranges.ts';
import type { TextEdit } from './text-edit.ts';
import { lineBreakAt, lineEnd } from './text-edit.ts';
import type { NewFrame } from './write.ts';
import { frameEntries } from './write.ts';

const USUAL_DEPTH = 2;

/**
 * The lines of a new item of a block list, without line breaks, from its dash on, written as the item beside it is: with
 * braces or on lines of its own, as far in, the crop on one line or on five.
 */
export function itemLines(text: string, frame: NewFrame, indent: number, beside?: Node): string[] {
  const entries = frameEntries(frame);
  const margin = ' '.repeat(indent);
  if (beside && isMap(beside) && styleOf(beside) === 'flow') return [`${margin}- { ${entries.join(', ')} }`];
  const [first, ...others] =
    beside && hasCropOnLines(beside) ? entries.flatMap((each) => onLines(each, frame)) : entries;
  const depth = beside ? depthOf(text, beside, indent) : USUAL_DEPTH;
  return [`${margin}-${' '.repeat(depth - 1)}${first!}`, ...others.map((entry) => margin + ' '.repeat(depth) + entry)];
}

/** The edits that add `{ … }` after an item of a list in brackets: on a line of its own where that item has one. */
export function addInBrackets(text: string, item: Node, end: number, frame: NewFrame): TextEdit[] {
  const added = `{ ${frameEntries(frame).join(', ')} }`;
  const lineStart = text.lastIndexOf('\n', startOf(item) - 1) + 1;
  const margin = text.slice(lineStart, startOf(item));
  const restEnd = lineEnd(text, end);
  const rest = /^[ \t]*(,?)[ \t]*(#.*)?$/.exec(text.slice(end, restEnd));
  if (!/^[ \t]+$/.test(margin) || !rest) return [insertion(end, `, ${added}`)];
  const line = lineBreakAt(text, end) + margin + added;
  return rest[1] === ',' ? [insertion(restEnd, `${line},`)] : [insertion(end, ','), insertion(restEnd, line)];
}

/** How far the keys of an item stand behind its dash. */
function depthOf(text: string, item: Node, indent: number): number {
  const column = indentOf(item);
  const isBehindDash = /-[ ]+$/.test(text.slice(text.lastIndexOf('\n', startOf(item) - 1) + 1, startOf(item)));
  return isBehindDash && column > indent + 1 ? column - indent : USUAL_DEPTH;
}

function hasCropOnLines(item: Node): boolean {
  const crop = ownPair(item, 'crop')?.value;
  return isMap(crop) && styleOf(crop) === 'block';
}

function onLines(entry: string, { crop }: NewFrame): string[] {
  if (!crop || !entry.startsWith('crop: ')) return [entry];
  return ['crop:', ...[...newCrop(crop).members].map(([key, value]) => `  ${key}: ${flowText(value)}`)];
}

function insertion(at: number, text: string): TextEdit {
  return { start: at, end: at, text };
}
