import type { LocatedFinding } from '../../session/located-finding.ts';
import type { FindingChanges } from '../../session/review/finding-changes.ts';
import type { Review, ReviewedFrame } from '../../session/review/review.ts';
import { boundedLines, shortened } from '../markdown/bounded.ts';
import { codeSpan, escapeMarkdown } from '../markdown/escape.ts';
import { count } from '../text.ts';
import { changeWords, isLengthChanged, lengthWords, reviewNotes, reviewSummary, sinceWords } from './words.ts';

const MOST_TOLD = 5;
const MOST_CHARACTERS = 300;
/** Says that a file is one of ours; nobody sees it. */
export const MARKDOWN_MARK = '<!-- Selvedge review -->';

/** A review as a comment on a pull request, at most 60 kB: the summary first, frames with new findings before others. */
export function formatReviewMarkdown(review: Review): string {
  const { frames, findings } = review;
  const ofSession = changesWords(findings);
  const head = [
    MARKDOWN_MARK,
    `### Crops since ${codeSpan(shortened(sinceWords(review), MOST_CHARACTERS))}: ${reviewSummary(review)}`,
    '',
    ...reviewNotes(review).map((note) => `${escapeMarkdown(shortened(note, MOST_CHARACTERS))}\n`),
    ...(ofSession === '' ? [] : [`About the manifest as a whole: ${ofSession}`, '']),
    ...(frames.length > 0 ? ['| frame | what changed | findings |', '| --- | --- | --- |'] : []),
  ];
  const ranked = [...frames].sort((one, other) => pressing(other) - pressing(one));
  return boundedLines(head, ranked.map(row), (left) => `… and ${count(left, 'more frame')}; the page has all of them.`);
}

function pressing({ findings }: ReviewedFrame): number {
  return findings.fresh.filter(({ severity, allowed }) => severity !== 'info' && allowed === undefined).length;
}

function row(frame: ReviewedFrame): string {
  const { kind, name, findings } = frame;
  const length = isLengthChanged(frame) ? [lengthWords(frame)!] : [];
  const changes = [...changeWords(frame), ...length].map((words) => escapeMarkdown(shortened(words, MOST_CHARACTERS)));
  const title = `**${codeSpan(shortened(name, MOST_CHARACTERS))}**${kind === 'changed' ? '' : `<br>${kind}`}`;
  return `| ${title} | ${changes.slice(0, 2 * MOST_TOLD).join('<br>')} | ${changesWords(findings)} |`;
}

function changesWords({ gone, fresh, judgedOtherwise }: FindingChanges): string {
  const parts = [
    ...told('new', fresh),
    ...told('gone', gone),
    ...told('judged otherwise', judgedOtherwise.map(({ now }) => now)), // prettier-ignore
  ];
  return parts.join('<br>');
}

function told(what: string, findings: readonly LocatedFinding[]): string[] {
  const words = findings.slice(0, MOST_TOLD).map(({ severity, message, rule, allowed }) => {
    const kind = allowed === undefined ? (severity === 'info' ? 'hint' : severity) : 'allowed';
    return `${what}: ${kind}, ${escapeMarkdown(shortened(message, MOST_CHARACTERS))} (\`${rule}\`)`;
  });
  const left = findings.length - words.length;
  return left === 0 ? words : [...words, `${what}: ${left} more`];
}
