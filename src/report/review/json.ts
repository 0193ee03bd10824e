import { LineIndex } from '../../manifest/position.ts';
import type { LocatedFinding } from '../../session/located-finding.ts';
import type { FindingChanges } from '../../session/review/finding-changes.ts';
import type { OutputChange } from '../../session/review/output-changes.ts';
import type { Review, ReviewedFrame, ReviewSide } from '../../session/review/review.ts';
import { printableJson } from '../printable.ts';
import { reviewNotes } from './words.ts';

/** The version of this output's shape. */
const FORMAT = 1;

/** A review for machines; docs/review.md describes its shape. */
export function formatReviewJson(review: Review): string {
  const { revision, past, session, frames, findings, settings, unchanged, isWithoutPhotos } = review;
  const lines = new LineIndex(session.manifest.text);
  const of = (kind: ReviewedFrame['kind']): number => frames.filter((frame) => frame.kind === kind).length;
  const report = {
    selvedge: FORMAT,
    since: { revision, commit: past.commit },
    manifest: { path: session.path, name: past.name, nameThen: past.then?.name },
    notes: reviewNotes(review),
    settings,
    withoutPhotos: isWithoutPhotos,
    findings: changesFields(findings),
    frames: frames.map((frame) => frameFields(frame, lines)),
    summary: { changed: of('changed'), added: of('added'), removed: of('removed'), unchanged },
  };
  return `${printableJson(JSON.stringify(report, null, 1))}\n`;
}

function frameFields(frame: ReviewedFrame, lines: LineIndex): object {
  const { kind, name, then, now, isPhotoChanged, movement, outputs, words, findings } = frame;
  return {
    kind,
    name,
    line: now && lines.positionAt(now.check.frame.range.start).line,
    then: then && sideFields(then),
    now: now && sideFields(now),
    photoChanged: isPhotoChanged,
    moved: movement,
    outputs: outputs.length === 0 ? undefined : outputs.map(outputFields),
    changes: words,
    findings: changesFields(findings),
  };
}

function outputFields({ output, then, now, movement }: OutputChange): object {
  return { output, then, now, moved: movement };
}

function sideFields({ check, size }: ReviewSide): object {
  const { frame, crop, straighten, length, lengthFrom } = check;
  return { photo: frame.photo.value, index: frame.index, size, crop, straighten, length, lengthFrom };
}

function changesFields({ gone, fresh, judgedOtherwise, kept }: FindingChanges): object {
  return {
    gone: gone.map(findingFields),
    new: fresh.map(findingFields),
    judgedOtherwise: judgedOtherwise.map(({ then, now }) => ({ then: findingFields(then), now: findingFields(now) })),
    kept: kept.map(findingFields),
  };
}

function findingFields({
  rule,
  severity,
  message,
  person,
  joint,
  edge,
  value,
  limit,
  output,
  allowed,
}: LocatedFinding): object {
  return { rule, severity, message, person, joint, edge, value, limit, output, allowed };
}
