import type { Rectangle } from '../geometry/shapes.ts';
import type { Session } from '../session/session.ts';
import { messageOf, type Log } from './log.ts';
import type { PhotoRoom } from './photo-room.ts';
import { photoPathOf } from './thumbnails.ts';
import type { Part } from './part.ts';

/** A picture that somebody waits for. */
export interface WantedPicture {
  /** See SheetFrame. */
  readonly name: string;
  readonly session: Session;
  readonly photo: string;
  readonly crop: Rectangle;
  readonly degrees: number;
}

/** Pixels of the longer edge, as over a line of the text: both use the same files. */
const LONG_EDGE = 360;
/** The photo room works on several at once; more would only wait there, where nobody can take them back. */
const AT_ONCE = 3;

/** Has pictures made for the sheet, in the order that they are wanted; what is no longer wanted is not begun. */
export class SheetPictures implements Part {
  readonly #room: PhotoRoom;
  readonly #log: Log;
  readonly #give: (name: string, file: string | undefined) => void;
  #waiting: WantedPicture[] = [];
  readonly #underWay = new Set<string>();

  /** @param give gets each picture's file; undefined when there is none to be had */
  constructor(room: PhotoRoom, log: Log, give: (name: string, file: string | undefined) => void) {
    this.#room = room;
    this.#log = log;
    this.#give = give;
  }

  /** From now on these are wanted, and no others. */
  want(pictures: readonly WantedPicture[]): void {
    this.#waiting = pictures.filter(({ name }) => !this.#underWay.has(name));
    while (this.#underWay.size < AT_ONCE && this.#waiting.length > 0) void this.#next();
  }

  dispose(): void {
    this.#waiting = [];
  }

  async #next(): Promise<void> {
    const wanted = this.#waiting.shift();
    if (!wanted) return;
    const { name } = wanted;
    this.#underWay.add(name);
    this.#give(name, await this.#make(wanted));
    this.#underWay.delete(name);
    await this.#next();
  }

  async #make({ session, photo, crop, degrees }: WantedPicture): Promise<string | undefined> {
    try {
      const path = await photoPathOf(session, photo);
      if (path === undefined) return undefined;
      return (await this.#room.ask('thumbnail', { path, crop, degrees, longEdge: LONG_EDGE })).file;
    } catch (error) {
      this.#log.debug(`${photo}: ${messageOf(error)}`);
      return undefined;
    }
  }
}
