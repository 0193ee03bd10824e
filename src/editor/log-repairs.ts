import type { Repairs } from '../session/fix.ts';
import { leftOutWords } from '../session/left-out.ts';
import { lengthWords } from '../session/length-change.ts';
import type { Log } from './log.ts';

/** Writes into the log what a repair did, frame by frame, and what it left to people, with the reasons. */
export function logRepairs({ fixed, stopped, untouched, needsYou }: Omit<Repairs, 'text' | 'edits'>, log: Log): void {
  for (const { frame, moved, length, leftOut } of fixed) {
    const costs = [...(length ? [lengthWords(length)] : []), ...(leftOut ? [leftOutWords(leftOut)] : [])];
    log.info(`fixed ${[`${frame.name}: moved ${(moved * 100).toFixed(1)} %`, ...costs].join(', ')}`);
  }
  if (stopped) log.info(`needs you: the session: ${stopped.problem.message}`);
  for (const { frame, troubles } of untouched) {
    for (const { message, rule } of troubles) log.info(`needs you: ${frame.name}: ${message} [${rule}]`);
  }
  for (const { frame, finding, reason } of needsYou) {
    const because = reason === undefined ? '' : `, because ${reason}`;
    log.info(`needs you: ${frame?.name ?? 'the session'}: ${finding.message} [${finding.rule}]${because}`);
  }
}
