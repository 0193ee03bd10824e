import type { Frame, TextRange } from '../manifest/manifest.ts';
import type { Finding } from '../rules/finding.ts';
import type { FixReport, Remaining, Stopped, Untouched } from '../session/fix-report.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import type { FixesFormat } from './fixes.ts';
import { printable } from './printable.ts';
import type { Colours } from './text.ts';
import { count, rulesWords } from './text.ts';

/** Beyond this many frames of one trouble, one line names them. */
const MOST_SINGLE = 3;
const MOST_NAMED = 5;

/** What a fix left: frames it may not touch first, then what no crop can meet. */
export function formatNeedsYou(report: FixReport, format: FixesFormat): string[] {
  const { stopped, untouched, needsYou, cleanCloser } = report;
  const { colours } = format;
  const ofSession = needsYou.filter(({ frame }) => frame === undefined);
  const ofFrames = byFrame(needsYou);
  const lines = [
    ...(stopped ? formatStopped(stopped, report, colours) : []),
    ...ofSession.map(
      ({ finding }) => `  ${placeWords(finding.range, report, colours)}${findingWords(finding, colours)}`,
    ),
    ...formatUntouched(report, format),
    ...ofFrames.flatMap(([frame, rest]) => formatRest(frame, rest, format)),
  ];
  if (lines.length === 0) return [colours.green('Nothing needs you.')];
  const whole = (stopped ? 1 : 0) + ofSession.length;
  const frames = untouched.length + ofFrames.length;
  const what = [
    ...(whole > 0 ? [`${count(whole, 'finding')} about the whole session`] : []),
    ...(frames > 0 ? [count(frames, 'frame')] : []),
  ];
  const closer = cleanCloser.map(({ name }) => printable(name)).join(', ');
  return [
    colours.bold(`Needs you: ${what.join(', ')}`),
    ...lines,
    ...(closer === '' ? [] : [`Clean with --any-length: ${closer}`]),
  ];
}

function formatStopped({ problem, waiting }: Stopped, report: FixReport, colours: Colours): string[] {
  const waits = waiting === 0 ? '' : ` (${waiting === 1 ? '1 frame waits' : `${waiting} frames wait`})`;
  return [
    `  ${placeWords(problem.range, report, colours)}${findingWords({ ...problem, rule: 'manifest' }, colours)}`,
    `    No frame is changed before this is mended${waits}.`,
  ];
}

/** One line for each frame, or for all frames with the same trouble when they are many. */
function formatUntouched(report: FixReport, format: FixesFormat): string[] {
  const { untouched } = report;
  const byRule = new Map<string, Untouched[]>();
  for (const one of untouched) {
    const { rule } = one.troubles[0]!;
    byRule.set(rule, [...(byRule.get(rule) ?? []), one]);
  }
  return [...byRule].flatMap(([rule, all]) =>
    format.inFull || rule === 'manifest' || all.length <= MOST_SINGLE
      ? all.flatMap((one) => formatSingle(one, report, format.colours))
      : [formatMany(rule, all, format.colours)],
  );
}

function formatSingle({ frame, troubles, waiting }: Untouched, report: FixReport, colours: Colours): string[] {
  const words = (finding: LocatedFinding): string => {
    const place = finding.rule === 'manifest' ? placeWords(finding.range, report, colours) : '';
    const name = finding.message.startsWith(frame.name) ? '' : `${printable(frame.name)}  `;
    return `  ${name}${place}${findingWords(finding, colours)}`;
  };
  return [
    ...troubles.map(words),
    ...(waiting === 0 ? [] : [`    Its crop is left as it is until then: ${count(waiting, 'finding')} about it.`]),
  ];
}

function formatMany(rule: string, all: readonly Untouched[], colours: Colours): string {
  const names = all.slice(0, MOST_NAMED).map(({ frame }) => printable(frame.name));
  const more = all.length > names.length ? ` and ${all.length - names.length} more` : '';
  const first = all[0]!.troubles[0]!;
  const severity = colours.yellow(first.severity);
  const command = /Run: .+$/.exec(first.message)?.[0];
  const remedy = command === undefined ? '' : ` ${printable(command)}`;
  return `  ${severity}  ${count(all.length, 'frame')} left as they are: ${names.join(', ')}${more}.${remedy}  ${colours.dim(`[${rule}]`)}`;
}

function formatRest(frame: Frame, rest: readonly Remaining[], { inFull, colours }: FixesFormat): string[] {
  const name = printable(frame.name);
  const because = (reason: string | undefined): string[] =>
    reason === undefined ? [] : [`    because ${printable(reason)}`];
  if (inFull || rest.every(({ reason }) => reason === undefined)) {
    return rest.flatMap(({ finding, reason }) => [`  ${name}  ${findingWords(finding, colours)}`, ...because(reason)]);
  }
  const reasons = new Set(rest.map(({ reason }) => reason));
  return [`  ${name}  ${rulesWords(rest.map(({ finding }) => finding))}`, ...[...reasons].flatMap(because)];
}

/** `crops.yaml:7:5  ` */
function placeWords(range: TextRange | undefined, { path, positionAt }: FixReport, colours: Colours): string {
  if (range === undefined) return '';
  const { line, column } = positionAt(range.start);
  return `${colours.dim(`${printable(path)}:${line}:${column}`)}  `;
}

function findingWords({ severity, message, rule }: Finding, colours: Colours): string {
  return `${colours.yellow(severity)}  ${printable(message)}  ${colours.dim(`[${rule}]`)}`;
}

function byFrame(needsYou: readonly Remaining[]): [Frame, Remaining[]][] {
  const frames = new Map<Frame, Remaining[]>();
  for (const rest of needsYou) {
    if (rest.frame) frames.set(rest.frame, [...(frames.get(rest.frame) ?? []), rest]);
  }
  return [...frames];
}
