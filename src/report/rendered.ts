import type { Finding } from '../rules/finding.ts';
import { PRINT_RULES } from '../rules/index.ts';
import type { FileRemark, RenderReport } from '../session/outputs/render-session.ts';
import { printable } from './printable.ts';
import { count } from './text.ts';

/** Names are told up to this many; the rest is counted. */
const MOST_NAMES = 5;

/** What a run of render did, for reading. */
export function formatRendered(report: RenderReport): string {
  const { written, upToDate, failed, remarks, stopped, wasInterrupted, total, unreadEntries, to } = report;
  // Of a print with too few pixels that is said by its rule.
  const few = new Set(remarks.filter(({ finding }) => finding.rule === 'print-resolution').map(({ name }) => name));
  const enlarged = written.filter(({ name, isEnlarged }) => isEnlarged && !few.has(name)).map(({ name }) => name);
  const left = total - written.length - upToDate.length - failed.length;
  return [
    ...(unreadEntries > 0
      ? [
          `${unreadEntries} of the entries of frames cannot be read, and nothing of them is made; selvedge check says why`,
        ]
      : []),
    ...failed.map(({ frame, output, message }) => printable(`${frame}, ${output}: ${message}`)),
    `${count(written.length, 'file')} written to ${printable(to)}, ${upToDate.length} up to date, ${failed.length} not made`,
    ...(enlarged.length > 0 ? [`made larger than the photo’s own pixels: ${names(enlarged)}`] : []),
    ...remarkLines(remarks),
    ...outdatedLines(report.outdated),
    ...(report.isLocationLeftOut && written.length > 0
      ? ['where the photos were taken is left out of the files; location: true in an output keeps it']
      : []),
    ...(stopped === undefined
      ? []
      : [printable(`${stopped} ${count(left, 'file')} left; the same command goes on from here.`)]),
    ...(wasInterrupted ? [`Interrupted with ${count(left, 'file')} left. The same command goes on from here.`] : []),
    '',
  ].join('\n');
}

/** Every error, what a rule says of files alone, and how many files have warnings. */
function remarkLines(remarks: readonly FileRemark[]): string[] {
  const errors = remarks.filter(({ finding }) => finding.severity === 'error');
  const warned = new Set(remarks.filter(({ finding }) => finding.severity === 'warning').map(({ name }) => name)).size;
  const told = remarks.filter(({ finding }) => finding.severity !== 'error' && isOfFiles(finding));
  return [
    ...errors.map(({ name, finding }) => printable(`${name}: error  ${finding.message}  [${finding.rule}]`)),
    ...someOfEachRule(told),
    ...(warned > 0
      ? [`${count(warned, 'file')} ${warned === 1 ? 'has' : 'have'} warnings; selvedge check says which`]
      : []),
  ];
}

/** What is said of the file rather than of the frame: its pixels, its bleed, and that nobody or no rule has seen its crop. */
function isOfFiles({ rule, severity }: Finding): boolean {
  return severity === 'info' || rule === 'not-measured' || PRINT_RULES.some(({ id }) => id === rule);
}

/** A line for each, as a check says it; some of each rule, and how many more there are. */
function someOfEachRule(remarks: readonly FileRemark[]): string[] {
  const rules = [...new Set(remarks.map(({ finding }) => finding.rule))];
  return rules.flatMap((rule) => {
    const ofRule = remarks.filter(({ finding }) => finding.rule === rule);
    const told = ofRule
      .slice(0, MOST_NAMES)
      .map(({ name, finding }) => printable(`${name}: ${finding.message}  [${rule}]`));
    const more = ofRule.length - told.length;
    return more === 0 ? told : [...told, `… and ${more} more  [${rule}]`];
  });
}

function outdatedLines(outdated: readonly string[]): string[] {
  const { length } = outdated;
  if (length === 0) return [];
  const [are, them] = length === 1 ? ['is', 'it'] : ['are', 'them'];
  return [
    `${count(length, 'file')} here ${are} of no frame or output any more: ${names(outdated)}; delete ${them} if nobody needs ${them}`,
  ];
}

function names(all: readonly string[]): string {
  const more = all.length - MOST_NAMES;
  return `${printable(all.slice(0, MOST_NAMES).join(', '))}${more > 0 ? ` and ${more} more` : ''}`;
}
