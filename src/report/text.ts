import pc from 'picocolors';
import { LineIndex } from '../manifest/position.ts';
import type { Severity } from '../rules/rule.ts';
import type { SessionCheck } from '../session/check.ts';
import { countFindings, type Counts } from '../session/counts.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import { printable } from './printable.ts';

export type Colours = ReturnType<typeof pc.createColors>;

/** Colours for a terminal; without one, none. */
export function coloursFor(isTerminal: boolean): Colours {
  return pc.createColors(isTerminal);
}

export interface TextFormat {
  readonly colours: Colours;
  /** Findings of severity info in full too; else only how many there are. */
  readonly hints: boolean;
}

/** A check for reading: `path:line:column  severity  message  [rule]`, frame by frame, and a summary. */
export function formatText(checks: readonly SessionCheck[], format: TextFormat): string {
  const parts = checks.flatMap((check) => formatSession(check, format));
  return [...parts, summaryLine(countFindings(checks), format.colours)].join('\n\n') + '\n';
}

function formatSession({ session, findings, frames }: SessionCheck, { colours, hints }: TextFormat): string[] {
  const lines = new LineIndex(session.manifest.text);
  const path = printable(session.path);
  const ofFrames = frames.map(({ frame, findings: all, length }) => ({
    title: printable(length === undefined ? frame.name : `${frame.name}, ${length}`),
    told: all.filter(isCounted),
  }));
  const ofHints = ofFrames.flatMap(({ told }) => told).filter(isHint);
  const groups = [
    // How the session as a whole was checked is told in any case.
    { title: path, told: findings.filter(isCounted) },
    ...ofFrames.map(({ title, told }) => ({ title, told: hints ? told : told.filter((finding) => !isHint(finding)) })),
  ];
  return [
    ...groups
      .filter(({ told }) => told.length > 0)
      .map(({ title, told }) =>
        [colours.bold(title), ...told.map((finding) => formatFinding(path, finding, lines, colours))].join('\n'),
      ),
    ...(hints || ofHints.length === 0 ? [] : [colours.cyan(`${path}: ${hintsLine(ofHints)}`)]),
  ];
}

/** `17 hints: placement 16, eye-line 1; show them with --hints` */
function hintsLine(hints: readonly LocatedFinding[]): string {
  const counts = [...countByRule(hints)].sort(([, first], [, second]) => second - first);
  const words = counts.map(([rule, times]) => `${rule} ${times}`).join(', ');
  return `${count(hints.length, 'hint')}: ${words}; show ${hints.length === 1 ? 'it' : 'them'} with --hints`;
}

function isCounted({ allowed }: LocatedFinding): boolean {
  return allowed === undefined;
}

function isHint({ severity }: LocatedFinding): boolean {
  return severity === 'info';
}

function formatFinding(path: string, finding: LocatedFinding, lines: LineIndex, colours: Colours): string {
  const { line, column } = lines.positionAt(finding.range.start);
  const place = colours.dim(`${path}:${line}:${column}`);
  const severity = colourOf(finding.severity, colours)(finding.severity);
  const told = `  ${place}  ${severity}  ${printable(finding.message)}  ${colours.dim(`[${finding.rule}]`)}`;
  const facts = (finding.related ?? []).map(
    ({ rule, message }) => `      ${printable(message)}  ${colours.dim(`[${rule}]`)}`,
  );
  return [told, ...facts].join('\n');
}

function colourOf(severity: Severity, colours: Colours): (text: string) => string {
  return { error: colours.red, warning: colours.yellow, info: colours.cyan }[severity];
}

/** `16 frames: 1 error, 3 warnings, 2 hints` */
export function summaryLine(counts: Counts, colours: Colours): string {
  const { errors, warnings } = counts;
  const line = summaryWords(counts);
  return errors > 0 ? colours.red(line) : warnings > 0 ? colours.yellow(line) : colours.green(line);
}

export function summaryWords({ frames, errors, warnings, infos }: Counts): string {
  const found = [count(errors, 'error'), count(warnings, 'warning'), count(infos, 'hint')].join(', ');
  return `${count(frames, 'frame')}: ${found}`;
}

/** `1 frame`, `2 frames` */
export function count(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

/** `joint-cut ×2, headroom` */
export function rulesWords(findings: readonly { readonly rule: string }[]): string {
  return [...countByRule(findings)].map(([rule, times]) => (times === 1 ? rule : `${rule} ×${times}`)).join(', ');
}

function countByRule(findings: readonly { readonly rule: string }[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { rule } of findings) counts.set(rule, (counts.get(rule) ?? 0) + 1);
  return counts;
}
