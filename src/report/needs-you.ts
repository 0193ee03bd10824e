import type { Frame, TextRange } from '../manifest/manifest.ts';
import type { Finding } from '../rules/finding.ts';
import { PRINT_RULES } from '../rules/index.ts';
import type { FixReport, Remaining, Stopped, Untouched } from '../session/fix-report.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import type { FixesFormat } from './fixes.ts';
import { printable } from './printable.ts';
import type { Colours } from './text.ts';
import { count } from './text.ts';

/** Beyond this many frames of one trouble, they are told together. */
const MOST_SINGLE = 3;
/** Letters in a line of names. */
const WIDTH = 100;

/** What a fix left: what no crop can meet, the frames of one reason together; then frames that it may not touch. */
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
    ...formatRests(ofFrames, format),
    ...formatUntouched(report, format),
  ];
  if (lines.length === 0) return [colours.green('Nothing needs you.')];
  const whole = (stopped ? 1 : 0) + ofSession.length;
  const frames = untouched.length + ofFrames.length;
  const what = [
    ...(whole > 0 ? [`${count(whole, 'finding')} about the whole session`] : []),
    ...(frames > 0 ? [count(frames, 'frame')] : []),
  ];
  return [
    colours.bold(`Needs you: ${what.join(', ')}`),
    ...lines,
    ...(cleanCloser.length === 0 ? [] : ['Clean with --any-length:', ...nameLines(cleanCloser, '  ')]),
  ];
}

function formatStopped({ problem, waiting }: Stopped, report: FixReport, colours: Colours): string[] {
  const waits = waiting === 0 ? '' : ` (${waiting === 1 ? '1 frame waits' : `${waiting} frames wait`})`;
  return [
    `  ${placeWords(problem.range, report, colours)}${findingWords({ ...problem, rule: 'manifest' }, colours)}`,
    `    No frame is changed before this is mended${waits}.`,
  ];
}

/** Each frame by itself, or all frames with the same trouble together when they are many. */
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
      : formatMany(rule, all, format.colours),
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

function formatMany(rule: string, all: readonly Untouched[], colours: Colours): string[] {
  const first = all[0]!.troubles[0]!;
  const severity = colours.yellow(first.severity);
  const command = /Run: .+$/.exec(first.message)?.[0];
  const remedy = command === undefined ? '' : ` ${printable(command)}`;
  return [
    `  ${severity}  ${count(all.length, 'frame')} left as they are.${remedy}  ${colours.dim(`[${rule}]`)}`,
    ...nameLines(all.map(({ frame }) => frame)),
  ];
}

type Rest = readonly [Frame, readonly Remaining[]];

/** What is left of frames: with the same rules for the same reasons told once, the frames under it; paper comes last. */
function formatRests(rests: readonly Rest[], { inFull, colours }: FixesFormat): string[] {
  if (inFull) return rests.flatMap(([frame, rest]) => formatInFull(frame, rest, colours));
  const groups = new Map<string, [Rest, ...Rest[]]>();
  for (const one of rests) {
    const key = likeness(one[1]);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  const [ofPaper, ofCrops] = partition([...groups.values()], ([[, rest]]) => rest.every(isOfPaper));
  return [...ofCrops, ...ofPaper].flatMap((group) => [
    ...told(
      group.map(([, rest]) => rest),
      colours,
    ),
    ...nameLines(group.map(([frame]) => frame)),
  ]);
}

function formatInFull(frame: Frame, rest: readonly Remaining[], colours: Colours): string[] {
  return rest.flatMap(({ finding, reason }) => [
    `  ${printable(frame.name)}  ${findingWords(finding, colours)}`,
    ...(reason === undefined ? [] : [`    because ${printable(reason)}`]),
  ]);
}

/** The same for frames that are told together: the same rules, and reasons or messages that differ in a measure alone. */
function likeness(rest: readonly Remaining[]): string {
  const reasons = reasonsOf(rest);
  const what = reasons.length === 0 ? rest.map(({ finding }) => finding.message) : ruleNames(rest);
  return [...what, '', ...reasons].map((words) => words.replaceAll(MEASURES, '')).join('\n');
}

/** The rules with their reasons; what has no reason, in its own words. */
function told(group: readonly (readonly Remaining[])[], colours: Colours): string[] {
  const first = group[0]!;
  const reasons = reasonsOf(first).map((_, index) => together(group.map((rest) => reasonsOf(rest)[index]!)));
  if (reasons.length > 0) {
    return [`  ${ruleNames(first).join(', ')}`, ...reasons.map((reason) => `    because ${printable(reason)}`)];
  }
  return first.map(({ finding }, index) => {
    const message = together(group.map((rest) => rest[index]!.finding.message));
    return `  ${findingWords({ ...finding, message }, colours)}`;
  });
}

function isOfPaper({ finding }: Remaining): boolean {
  return PRINT_RULES.some(({ id }) => id === finding.rule);
}

function partition<T>(all: readonly T[], isAsked: (one: T) => boolean): [T[], T[]] {
  return [all.filter(isAsked), all.filter((one) => !isAsked(one))];
}

function ruleNames(rest: readonly Remaining[]): string[] {
  return [...new Set(rest.map(({ finding }) => finding.rule))];
}

function reasonsOf(rest: readonly Remaining[]): string[] {
  return [...new Set(rest.flatMap(({ reason }) => reason ?? []))];
}

/** Numbers that tell how much, not who. */
const MEASURES = /\d+(?:\.\d+)?(?= (?:px|pixels|%))/g;

/** Sentences that differ in measures alone as one: "the photo ends 12 to 56 px under the left ankle". */
function together(sentences: readonly string[]): string {
  const found = sentences.map((sentence) => sentence.match(MEASURES) ?? []);
  let place = 0;
  return sentences[0]!.replaceAll(MEASURES, () => {
    const here = found.map((numbers) => numbers[place]!).sort((one, other) => Number(one) - Number(other));
    place++;
    const [least, most] = [here[0]!, here.at(-1)!];
    return least === most ? least : `${least} to ${most}`;
  });
}

/** The names of frames, as many in a line as fit. */
function nameLines(frames: readonly Frame[], indent = '    '): string[] {
  const lines: string[] = [];
  for (const [index, frame] of frames.entries()) {
    const name = `${printable(frame.name)}${index < frames.length - 1 ? ',' : ''}`;
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + name.length <= WIDTH) lines[lines.length - 1] = `${last} ${name}`;
    else lines.push(`${indent}${name}`);
  }
  return lines;
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
