import type { Webview } from 'vscode';
import { Uri } from 'vscode';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { WHOLE_PHOTO, type Rectangle } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
import type { ToMat } from '../panel/messages.ts';
import { cacheFolder } from '../session/cache-folder.ts';
import type { Session } from '../session/session.ts';
import { messageOf, type Log } from './log.ts';
import type { PhotoRoom } from './photo-room.ts';
import { photoPathOf } from './thumbnails.ts';

/** Pixels of the whole photo's longer edge on the mat. */
const LONG_EDGE = 1600;
/** Of the small one that is shown until then: a decoder reads an eighth of a large photo's pixels for it. */
const PREVIEW_EDGE = 480;

/** Where the mat's pictures are; the webview may read nothing else of the disk. */
export function picturesFolder(): Uri {
  return Uri.file(join(cacheFolder(), 'details'));
}

/** The photo on the mat: first all of it, fitted, and sharper parts when they are looked at closely. */
export class MatPictures {
  readonly #room: PhotoRoom;
  readonly #log: Log;

  constructor(room: PhotoRoom, log: Log) {
    this.#room = room;
    this.#log = log;
  }

  /**
   * The message that shows all of a frame's photo, small, and with the picture in it: it asks for no file. Undefined when
   * the photo is not there to be asked.
   * @throws Error when the photo cannot be read
   */
  async preview(session: Session, frame: Frame, revision: number): Promise<ToMat | undefined> {
    const file = await this.#file(session, frame, WHOLE_PHOTO, PREVIEW_EDGE);
    if (file === undefined) return undefined;
    const address = `data:image/jpeg;base64,${(await readFile(file)).toString('base64')}`;
    return { kind: 'picture', revision, region: WHOLE_PHOTO, address, isPreview: true };
  }

  /** The same as large as the mat shows it, from a file of ours. */
  async whole(webview: Webview, session: Session, frame: Frame, revision: number): Promise<ToMat | undefined> {
    return this.part(webview, session, frame, { revision, region: WHOLE_PHOTO, longEdge: LONG_EDGE });
  }

  /** A part of it, as sharp as is asked for. */
  async part(
    webview: Webview,
    session: Session,
    frame: Frame,
    { revision, region, longEdge }: { revision: number; region: Rectangle; longEdge: number },
  ): Promise<ToMat | undefined> {
    const file = await this.#file(session, frame, region, longEdge);
    return file === undefined
      ? undefined
      : { kind: 'picture', revision, region, address: webview.asWebviewUri(Uri.file(file)).toString() };
  }

  /** Has a frame's pictures made before they are asked for. */
  async prepare(session: Session, frame: Frame | undefined): Promise<void> {
    if (!frame) return;
    try {
      for (const longEdge of [PREVIEW_EDGE, LONG_EDGE]) await this.#file(session, frame, WHOLE_PHOTO, longEdge);
    } catch (error) {
      this.#log.debug(messageOf(error));
    }
  }

  async #file(session: Session, frame: Frame, region: Rectangle, longEdge: number): Promise<string | undefined> {
    const path = await photoPathOf(session, frame.photo.value);
    return path === undefined ? undefined : (await this.#room.ask('detail', { path, region, longEdge })).file;
  }
}
