import type { Webview } from 'vscode';
import { Uri } from 'vscode';
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
   * The message that shows a part of a frame's photo; undefined when the photo is not there to be asked.
   * @throws Error when the photo cannot be read
   */
  async picture(
    webview: Webview,
    session: Session,
    frame: Frame,
    {
      revision,
      region = WHOLE_PHOTO,
      longEdge = LONG_EDGE,
    }: { revision: number; region?: Rectangle; longEdge?: number },
  ): Promise<ToMat | undefined> {
    const path = await photoPathOf(session, frame.photo.value);
    if (path === undefined) return undefined;
    const { file } = await this.#room.ask('detail', { path, region, longEdge });
    return { kind: 'picture', revision, region, address: webview.asWebviewUri(Uri.file(file)).toString() };
  }

  /** Has a frame's picture made before it is asked for. */
  async prepare(session: Session, frame: Frame | undefined): Promise<void> {
    try {
      const path = frame && (await photoPathOf(session, frame.photo.value));
      if (path !== undefined) await this.#room.ask('detail', { path, region: WHOLE_PHOTO, longEdge: LONG_EDGE });
    } catch (error) {
      this.#log.debug(messageOf(error));
    }
  }
}
