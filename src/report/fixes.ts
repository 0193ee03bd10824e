import type { Rectangle } from '../geometry/shapes.ts';
import { flowText, newCrop } from '../manifest/new-value.ts';
import type { FixedFrame, FixReport } from '../session/fix-report.ts';
import { leftOutWords } from '../session/left-out.ts';
import { lengthWords } from '../session/length-change.ts';
import { formatNeedsYou } from './needs-you.ts';
import { printable } from './printable.ts';
import type { Colours } from './text.ts';
import { count, rulesWords } from './text.ts';

export interface FixesFormat {
  readonly isDryRun: boolean;
  /** Every finding in its whole sentence, and every crop's numbers; else a line a frame. */
  readonly inFull: boolean;
  readonly colours: Colours;
}

/** What stands in a frame's line. */
const COLUMNS = 'how far the four edges moved in all, in percent of the photo’s diagonal, and what is mended by it';

/** What a fix changed, furthest first, then what needs you, with the reason. */
export function formatFixes(report: FixReport, format: FixesFormat): string {
  const parts = [formatAllFixed(report, format), formatNeedsYou(report, format)];
  return parts.map((lines) => `${lines.join('\n')}\n`).join('\n');
}

function formatAllFixed({ path, fixed }: FixReport, format: FixesFormat): string[] {
  const done = format.isDryRun ? 'would change' : 'changed';
  const order = fixed.length > 1 ? ', furthest moved first' : '';
  const widest = Math.min(40, Math.max(0, ...fixed.map(({ frame }) => printable(frame.name).length)));
  return [
    format.colours.bold(`${printable(path)}: ${done} ${count(fixed.length, 'frame')}${order}`),
    ...(fixed.length > 0 ? [`  ${format.colours.dim(COLUMNS)}`] : []),
    ...fixed.flatMap((frame) => formatFixed(frame, widest, format)),
  ];
}

function formatFixed(
  { frame, before, after, straighten, length, leftOut, moved, repaired }: FixedFrame,
  width: number,
  format: FixesFormat,
): string[] {
  const { colours, inFull } = format;
  const name = printable(frame.name).padEnd(width);
  const lengths = length ? `; ${lengthWords(length)}` : '';
  const left = leftOut ? `; ${leftOutWords(leftOut)}` : '';
  const line = `  ${name}  moved ${(moved * 100).toFixed(1).padStart(4)} %  ${rulesWords(repaired)}${lengths}${left}`;
  if (!inFull) return [line];
  return [
    line,
    ...(straighten ? [`    ${colours.dim(`straighten ${straighten.before} → ${straighten.after}`)}`] : []),
    `    ${colours.dim(`crop ${cropWords(before)} → ${cropWords(after)}`)}`,
    ...repaired.map(
      ({ rule, message }) => `    ${colours.green('no longer:')} ${printable(message)}  ${colours.dim(`[${rule}]`)}`,
    ),
  ];
}

function cropWords(crop: Rectangle): string {
  return flowText(newCrop(crop));
}
