import { repairFrames } from '../session/fix.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { isPressing } from '../session/located-finding.ts';
import type { SessionCheck } from '../session/session-check.ts';
import type { Session } from '../session/session.ts';
import { problemOfWhole } from '../session/trust.ts';

interface Known {
  /** What it was worked out from. */
  readonly from: string;
  readonly needsYou: boolean;
}

/** Which frames have something that no fix can do. A search for each frame is dear, so what is known is kept. */
export class NeedsYou {
  readonly #known = new Map<number, Known>();
  #header = '';

  /**
   * Indices of those frames.
   * @throws the signal's reason when it aborts; what was worked out until then is kept
   */
  async find(check: SessionCheck, signal: AbortSignal): Promise<number[]> {
    const { session } = check;
    const { text, framesRange } = session.manifest;
    const header = JSON.stringify([text.slice(0, framesRange?.start), problemOfWhole(session)?.message]);
    if (header !== this.#header) this.#known.clear();
    this.#header = header;
    const needing: number[] = [];
    for (const frame of check.frames) {
      if (!frame.findings.some(isPressing)) continue;
      const from = sourceOf(session, frame);
      const known = this.#known.get(frame.frame.index);
      const needsYou = known?.from === from ? known.needsYou : await isLeft(check, frame, signal);
      this.#known.set(frame.frame.index, { from, needsYou });
      if (needsYou) needing.push(frame.frame.index);
    }
    return needing;
  }
}

async function isLeft(check: SessionCheck, frame: FrameCheck, signal: AbortSignal): Promise<boolean> {
  const { untouched, needsYou, stopped } = await repairFrames({ ...check, frames: [frame], findings: [] }, { signal });
  return untouched.length + needsYou.length > 0 || stopped !== undefined;
}

/** Everything of a frame that a fix depends on, beside the header. */
function sourceOf({ manifest: { text }, people }: Session, { frame, crop, findings }: FrameCheck): string {
  const { start, end } = frame.range;
  const found = findings.map(({ rule, severity, message, allowed }) => [rule, severity, message, allowed]);
  return JSON.stringify([text.slice(start, end), people.lines.get(frame.photo.value), crop, found]);
}
