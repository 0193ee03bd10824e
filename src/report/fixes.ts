import type { Rectangle } from '../geometry/shapes.ts';
import { flowText, newCrop } from '../manifest/new-value.ts';
import type { FixedFrame, FixReport, Remaining } from '../session/fix.ts';
import { printable } from './printable.ts';
import type { Colours } from './text.ts';
import { count } from './text.ts';

/** What a fix changed, furthest first, then what needs you, with the reason. */
export function formatFixes(report: FixReport, isDryRun: boolean, colours: Colours): string {
  const { path, fixed, needsYou, cleanCloser } = report;
  const done = isDryRun ? 'would change' : 'changed';
  const head = `${printable(path)}: ${done} ${count(fixed.length, 'frame')}${fixed.length > 1 ? ', furthest moved first' : ''}`;
  const parts = [
    [colours.bold(head), ...fixed.flatMap((frame) => formatFixed(frame, colours))],
    needsYou.length === 0
      ? [colours.green('Nothing needs you.')]
      : [
          colours.bold(`Needs you: ${count(needsYou.length, 'finding')}`),
          ...needsYou.flatMap((rest) => formatRemaining(rest, colours)),
          ...(cleanCloser.length > 0
            ? [`Clean with --any-length: ${cleanCloser.map(({ name }) => printable(name)).join(', ')}`]
            : []),
        ],
  ];
  return parts.map((lines) => `${lines.join('\n')}\n`).join('\n');
}

function formatFixed({ frame, before, after, moved, repaired }: FixedFrame, colours: Colours): string[] {
  const crops = `${cropWords(before)} → ${cropWords(after)}`;
  return [
    `  ${printable(frame.name)}  moved ${(moved * 100).toFixed(1)} %  ${colours.dim(crops)}`,
    ...repaired.map(
      ({ rule, message }) => `    ${colours.green('repaired')}  ${printable(message)}  ${colours.dim(`[${rule}]`)}`,
    ),
  ];
}

function formatRemaining({ frame, finding, reason }: Remaining, colours: Colours): string[] {
  const where = frame ? `${printable(frame.name)}  ` : '';
  return [
    `  ${where}${colours.yellow(finding.severity)}  ${printable(finding.message)}  ${colours.dim(`[${finding.rule}]`)}`,
    ...(reason === undefined ? [] : [`    because ${printable(reason)}`]),
  ];
}

function cropWords(crop: Rectangle): string {
  return flowText(newCrop(crop));
}
