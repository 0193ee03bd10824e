import type { Fix } from '../search/index.ts';
import { LineIndex } from '../manifest/position.ts';
import type { FrameCheck, SessionCheck } from '../session/check.ts';
import type { Shard } from '../session/check-part.ts';
import { countFindings } from '../session/counts.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import { printableJson } from './printable.ts';

/** The version of this output's shape. */
export const JSON_FORMAT = 1;

/**
 * The whole check as one JSON text; its shape is described in DESIGN.md under "The command line".
 * @param shard which part of the frames this is, when it is one
 */
export function formatJson(checks: readonly SessionCheck[], shard?: Shard): string {
  const report = {
    selvedge: JSON_FORMAT,
    shard,
    manifests: checks.map(manifestFields),
    summary: countFindings(checks),
  };
  return printableJson(JSON.stringify(report));
}

function manifestFields({ session, findings, frames }: SessionCheck): object {
  const lines = new LineIndex(session.manifest.text);
  return {
    path: session.path,
    findings: findings.map((finding) => findingFields(finding, lines)),
    frames: frames.map((frame) => frameFields(frame, lines)),
  };
}

function frameFields(check: FrameCheck, lines: LineIndex): object {
  const { frame, crop, straighten, length, lengthFrom, findings } = check;
  return {
    photo: frame.photo.value,
    index: frame.index,
    line: lines.positionAt(frame.range.start).line,
    crop,
    straighten,
    length,
    lengthFrom,
    findings: findings.map((finding) => findingFields(finding, lines)),
  };
}

function findingFields(finding: LocatedFinding, lines: LineIndex): object {
  const { rule, severity, message, range, person, joint, edge, value, limit, output, related, allowed, fixes } =
    finding;
  const start = lines.positionAt(range.start);
  const end = lines.positionAt(range.end);
  return {
    rule,
    severity,
    message,
    line: start.line,
    column: start.column,
    endLine: end.line,
    endColumn: end.column,
    person,
    joint,
    edge,
    value,
    limit,
    output,
    related,
    allowed,
    fixes: fixes && fixes.length > 0 ? fixes.map(fixFields) : undefined,
  };
}

function fixFields({ title, crop, straighten }: Fix): object {
  return { title, crop, straighten };
}
