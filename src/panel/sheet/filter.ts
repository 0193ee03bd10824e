import { LENGTHS, type Length } from '../../people/lengths.ts';
import type { Severity } from '../../rules/rule.ts';
import type { SheetFrame } from '../sheet-messages.ts';

/** Which frames are shown; what is absent lets everything through. */
export interface Filter {
  readonly rule?: string;
  /** `clean`: nothing was found. */
  readonly severity?: Severity | 'clean';
  readonly people?: number | 'not measured';
  readonly length?: Length | 'not known';
  /** Only frames with something that no fix can do. */
  readonly needsYou?: boolean;
  /** A piece of the name, in any case. */
  readonly name?: string;
}

/** The frames that a filter lets through, in their order. */
export function filtered(
  frames: readonly SheetFrame[],
  filter: Filter,
  needsYou: ReadonlySet<number>,
): readonly SheetFrame[] {
  const name = filter.name?.trim().toLowerCase() ?? '';
  return frames.filter(
    (frame) =>
      (name === '' || frame.name.toLowerCase().includes(name)) &&
      (filter.needsYou !== true || needsYou.has(frame.index)) &&
      (filter.people === undefined || (frame.people ?? 'not measured') === filter.people) &&
      (filter.length === undefined || (frame.length ?? 'not known') === filter.length) &&
      passesFindings(frame, filter),
  );
}

/** One and the same finding must be of the rule and of the severity. */
function passesFindings({ findings }: SheetFrame, { rule, severity }: Filter): boolean {
  if (severity === 'clean') return findings.length === 0;
  if (rule === undefined && severity === undefined) return true;
  return findings.some(
    (finding) =>
      (rule === undefined || finding.rule === rule) && (severity === undefined || finding.severity === severity),
  );
}

/** Something to filter by, and how many frames have it. */
export interface Choice<Value> {
  readonly value: Value;
  readonly frames: number;
}

export interface Choices {
  /** By name. */
  readonly rules: readonly Choice<string>[];
  readonly severities: readonly Choice<Severity | 'clean'>[];
  readonly people: readonly Choice<number | 'not measured'>[];
  /** From full to close. */
  readonly lengths: readonly Choice<Length | 'not known'>[];
}

/** What these frames can be filtered by. */
export function choicesOf(frames: readonly SheetFrame[]): Choices {
  const rules = new Map<string, number>();
  const severities = new Map<Severity | 'clean', number>();
  const people = new Map<number | 'not measured', number>();
  const lengths = new Map<Length | 'not known', number>();
  for (const { findings, people: number, length } of frames) {
    for (const rule of new Set(findings.map((finding) => finding.rule))) count(rules, rule);
    for (const severity of new Set(findings.map((finding) => finding.severity))) count(severities, severity);
    if (findings.length === 0) count(severities, 'clean');
    count(people, number ?? 'not measured');
    count(lengths, length ?? 'not known');
  }
  return {
    rules: inOrder(rules, [...rules.keys()].sort()),
    severities: inOrder(severities, ['error', 'warning', 'info', 'clean']),
    people: inOrder(people, [
      ...[...people.keys()].filter((key) => typeof key === 'number').sort((one, two) => one - two),
      'not measured',
    ]),
    lengths: inOrder(lengths, [...LENGTHS, 'not known']),
  };
}

function count<Key>(counts: Map<Key, number>, key: Key): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

function inOrder<Value>(counts: ReadonlyMap<Value, number>, order: readonly Value[]): Choice<Value>[] {
  return order.flatMap((value) => {
    const frames = counts.get(value);
    return frames === undefined ? [] : [{ value, frames }];
  });
}
