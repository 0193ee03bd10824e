import pc from 'picocolors';
import { LineIndex } from '../manifest/position.ts';
import type { Severity } from '../rules/rule.ts';
import type { SessionCheck } from '../session/check.ts';
import { countFindings, type Counts } from '../session/counts.ts';
import type { LocatedFinding } from '../session/located-finding.ts';

export type Colours = ReturnType<typeof pc.createColors>;

/** Colours for a terminal; without one, none. */
export function coloursFor(isTerminal: boolean): Colours {
  return pc.createColors(isTerminal);
}

/** A check for reading: `path:line:column  severity  message  [rule]`, frame by frame, and a summary. */
export function formatText(checks: readonly SessionCheck[], colours: Colours): string {
  const parts = checks.flatMap((check) => formatSession(check, colours));
  return [...parts, summaryLine(countFindings(checks), colours)].join('\n\n') + '\n';
}

function formatSession({ session, findings, frames }: SessionCheck, colours: Colours): string[] {
  const lines = new LineIndex(session.manifest.text);
  const format = (finding: LocatedFinding): string => formatFinding(session.path, finding, lines, colours);
  const groups = [
    { title: session.path, findings },
    ...frames.map(({ frame, findings: ofFrame, length }) => ({
      title: length === undefined ? frame.name : `${frame.name}, ${length}`,
      findings: ofFrame,
    })),
  ];
  return groups
    .map(({ title, findings: all }) => ({ title, told: all.filter(({ allowed }) => allowed === undefined) }))
    .filter(({ told }) => told.length > 0)
    .map(({ title, told }) => [colours.bold(title), ...told.map(format)].join('\n'));
}

function formatFinding(path: string, finding: LocatedFinding, lines: LineIndex, colours: Colours): string {
  const { line, column } = lines.positionAt(finding.range.start);
  const place = colours.dim(`${path}:${line}:${column}`);
  const severity = colourOf(finding.severity, colours)(finding.severity);
  return `  ${place}  ${severity}  ${finding.message}  ${colours.dim(`[${finding.rule}]`)}`;
}

function colourOf(severity: Severity, colours: Colours): (text: string) => string {
  return { error: colours.red, warning: colours.yellow, info: colours.cyan }[severity];
}

/** `16 frames: 1 error, 3 warnings, 2 infos` */
export function summaryLine({ frames, errors, warnings, infos }: Counts, colours: Colours): string {
  const found = [count(errors, 'error'), count(warnings, 'warning'), count(infos, 'info')].join(', ');
  const line = `${count(frames, 'frame')}: ${found}`;
  return errors > 0 ? colours.red(line) : warnings > 0 ? colours.yellow(line) : colours.green(line);
}

/** `1 frame`, `2 frames` */
export function count(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}
