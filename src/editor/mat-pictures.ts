import type { Webview } from 'vscode';
import { Uri } from 'vscode';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { WHOLE_PHOTO, type Rectangle } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
import { WHOLE_EDGE, type ToMat } from '../panel/messages.ts';
import { cacheFolder } from '../session/cache-folder.ts';
import type { Session } from '../session/session.ts';
import { Delayed } from './delayed.ts';
import { messageOf, type Log } from './log.ts';
import type { Part } from './part.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainLine } from './plain-text.ts';
import { photoPathOf } from './thumbnails.ts';

/** Pixels of the longer edge of what is shown first: a decoder reads an eighth of a large photo's pixels for it. */
const PREVIEW_EDGE = 480;
/** Milliseconds that a frame lies before the next one's pictures are made: its own are painted first. */
const PAUSE = 250;

/** Where the mat's pictures are; the webview may read nothing else of the disk. */
export function picturesFolder(): Uri {
  return Uri.file(join(cacheFolder(), 'details'));
}

/** A frame whose photo is shown, by the number of the message that shows it. */
interface Shown {
  readonly session: Session;
  readonly frame: Frame;
  readonly revision: number;
}

/** The photo on the mat: first all of it, small, then as large as it lies there, and sharper parts when they are looked at closely. */
export class MatPictures implements Part {
  readonly #room: PhotoRoom;
  readonly #log: Log;
  readonly #webview: Webview;
  readonly #post: (message: ToMat) => void;
  readonly #next: Delayed;
  #shown: Shown | undefined;

  /** @param post gets the messages that show pictures, or say why one cannot be shown */
  constructor(room: PhotoRoom, log: Log, webview: Webview, post: (message: ToMat) => void) {
    this.#room = room;
    this.#log = log;
    this.#webview = webview;
    this.#post = post;
    this.#next = new Delayed(PAUSE, () => this.#prepareNext());
  }

  /** Has all of a frame's photo shown, small; a larger picture is asked for by the page. */
  async show(shown: Shown): Promise<void> {
    const { session, frame, revision } = shown;
    this.#next.stop();
    this.#shown = shown;
    try {
      const small = await this.#file(session, frame, WHOLE_PHOTO, PREVIEW_EDGE);
      if (small !== undefined) {
        // With the picture in it, it asks for no file.
        const address = `data:image/jpeg;base64,${(await readFile(small)).toString('base64')}`;
        this.#post({ kind: 'picture', revision, region: WHOLE_PHOTO, address, isPreview: true });
      }
    } catch (error) {
      const words = `${plainLine(frame.photo.value, 100)} cannot be shown: ${plainLine(messageOf(error))}`;
      this.#log.warn(words);
      this.#post({ kind: 'notice', text: words });
    }
  }

  /**
   * Has a part of it shown, or all, as sharp as is asked for; then the next frame's pictures are made.
   * @throws Error when the photo cannot be read
   */
  async showPart({ session, frame, revision }: Shown, region: Rectangle, longEdge: number): Promise<void> {
    const file = await this.#file(session, frame, region, longEdge);
    if (file === undefined) return;
    const address = this.#webview.asWebviewUri(Uri.file(file)).toString();
    this.#post({ kind: 'picture', revision, region, address });
    this.#next.start();
  }

  /** Has a frame's small picture made while the page still loads; a larger one would take the processor from that. */
  async prepare(session: Session, frame: Frame): Promise<void> {
    await this.#make(session, frame, [PREVIEW_EDGE]);
  }

  async #make(session: Session, frame: Frame, longEdges: readonly number[]): Promise<void> {
    try {
      for (const longEdge of longEdges) await this.#file(session, frame, WHOLE_PHOTO, longEdge);
    } catch (error) {
      this.#log.debug(messageOf(error));
    }
  }

  dispose(): void {
    this.#next.dispose();
  }

  async #prepareNext(): Promise<void> {
    if (!this.#shown) return;
    const { session, frame } = this.#shown;
    const { frames } = session.manifest;
    const next = frames[frames.findIndex(({ index }) => index === frame.index) + 1];
    if (next) await this.#make(session, next, [PREVIEW_EDGE, WHOLE_EDGE]);
  }

  async #file(session: Session, frame: Frame, region: Rectangle, longEdge: number): Promise<string | undefined> {
    const path = await photoPathOf(session, frame.photo.value);
    return path === undefined ? undefined : (await this.#room.ask('detail', { path, region, longEdge })).file;
  }
}
