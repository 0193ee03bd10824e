import type { Size } from '../geometry/shapes.ts';
import { SHEET_PROTOCOL, type SheetFrame, type ToSheet } from '../panel/sheet-messages.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { plainLine } from './plain-text.ts';
import { sheetFrame } from './sheet-frames.ts';

/** What the sheet was sent last, so that only what changed goes there again. */
export class SentFrames {
  #revision = 0;
  #title = '';
  /** Names as the manifest has them, and each frame as it was sent, by the frame's index. */
  #names: ReadonlyMap<number, string> = new Map();
  #frames = new Map<number, string>();

  /** Of the list of frames that the sheet has. */
  get revision(): number {
    return this.#revision;
  }

  /** The sheet has nothing any more. */
  forget(): void {
    this.#names = new Map();
    this.#frames.clear();
  }

  /** The frames' own names; an index that was not sent names nothing. */
  namesOf(indices: readonly number[]): Set<string> {
    return new Set(indices.flatMap((index) => this.#names.get(index) ?? []));
  }

  /**
   * What to send, so that the sheet shows this check.
   * @param output the one whose crops are shown; absent: the main crops
   */
  messageFor(
    { session, frames: checks }: SessionCheck,
    sizeOf: (photo: string) => Size | undefined,
    output?: string,
  ): ToSheet {
    const frames = checks.map((check) => sheetFrame(session, check, sizeOf(check.frame.photo.value), output));
    const title = plainLine(session.manifest.session?.value ?? 'Session', 80);
    const isSameList =
      title === this.#title &&
      checks.length === this.#names.size &&
      checks.every(({ frame }) => this.#names.get(frame.index) === frame.name);
    const changed = frames.filter((frame) => this.#isNews(frame));
    if (isSameList) return { kind: 'changed', frames: changed };
    this.#title = title;
    this.#names = new Map(checks.map(({ frame }) => [frame.index, frame.name]));
    return { kind: 'session', protocol: SHEET_PROTOCOL, revision: ++this.#revision, name: title, frames };
  }

  #isNews(frame: SheetFrame): boolean {
    const text = JSON.stringify(frame);
    if (this.#frames.get(frame.index) === text) return false;
    this.#frames.set(frame.index, text);
    return true;
  }
}
