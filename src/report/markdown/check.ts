import { LineIndex } from '../../manifest/position.ts';
import type { FrameCheck, SessionCheck } from '../../session/check.ts';
import { countFindings } from '../../session/counts.ts';
import { isPressing, type LocatedFinding } from '../../session/located-finding.ts';
import { count, summaryWords } from '../text.ts';
import { boundedLines, shortened } from './bounded.ts';
import { codeSpan, escapeMarkdown } from './escape.ts';

const MOST_TOLD = 4;
const MOST_CHARACTERS = 300;

interface Row {
  readonly errors: number;
  readonly warnings: number;
  readonly line: string;
}

/** The check as a comment on a pull request: the summary, then the frames with errors and warnings, worst first. */
export function formatMarkdown(checks: readonly SessionCheck[]): string {
  const counts = countFindings(checks);
  const rows = checks.flatMap((check) => rowsOf(check));
  rows.sort((one, other) => other.errors - one.errors || other.warnings - one.warnings);
  const verdict = counts.errors + counts.warnings === 0 ? 'Nothing at warning or above.' : 'Worst first.';
  const table = ['', '| frame | | what is found |', '| --- | --- | --- |'];
  const head = [`### Crops: ${summaryWords(counts)}`, '', verdict, ...(rows.length > 0 ? table : [])];
  return boundedLines(
    head,
    rows.map(({ line }) => line),
    (left) => `… and ${count(left, 'more row')} like these; \`selvedge check\` tells all.`,
  );
}

function rowsOf({ session, findings, frames }: SessionCheck): Row[] {
  const lines = new LineIndex(session.manifest.text);
  const placeOf = ({ range }: LocatedFinding): string =>
    codeSpan(shortened(`${session.path}:${lines.positionAt(range.start).line}`, MOST_CHARACTERS));
  const ofSession = findings.filter(isPressing);
  return [
    ...(ofSession.length === 0 ? [] : [row(placeOf(ofSession[0]!), ofSession)]),
    ...frames.flatMap((check) => {
      const pressing = check.findings.filter(isPressing);
      return pressing.length === 0 ? [] : [row(`${nameOf(check)}<br>${placeOf(pressing[0]!)}`, pressing)];
    }),
  ];
}

function nameOf({ frame, length }: FrameCheck): string {
  const name = `**${codeSpan(shortened(frame.name, MOST_CHARACTERS))}**`;
  return length === undefined ? name : `${name} ${length}`;
}

function row(place: string, pressing: readonly LocatedFinding[]): Row {
  const errors = pressing.filter(({ severity }) => severity === 'error').length;
  const warnings = pressing.length - errors;
  const counted = [errors > 0 && count(errors, 'error'), warnings > 0 && count(warnings, 'warning')];
  const told = [...pressing].sort((one, other) => rank(one) - rank(other)).slice(0, MOST_TOLD);
  const words = told.map(({ message, rule }) => `${escapeMarkdown(shortened(message, MOST_CHARACTERS))} (\`${rule}\`)`);
  const more = pressing.length > told.length ? [`and ${pressing.length - told.length} more`] : [];
  return {
    errors,
    warnings,
    line: `| ${place} | ${counted.filter((part) => part !== false).join('<br>')} | ${[...words, ...more].join('<br>')} |`,
  };
}

function rank({ severity }: LocatedFinding): number {
  return severity === 'error' ? 0 : 1;
}
