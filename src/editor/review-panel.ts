import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { WebviewPanel } from 'vscode';
import { Uri, ViewColumn, window, workspace } from 'vscode';
import { readFromReview } from '../panel/review-messages.ts';
import { formatReviewPage } from '../report/review/page.ts';
import { cacheFolder } from '../session/cache-folder.ts';
import type { MakePicture } from '../session/pictures.ts';
import { reviewPictures, type PictureOptions } from '../session/review/review-pictures.ts';
import type { Review } from '../session/review/review.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainLine, plainMessage } from './plain-text.ts';
import { revealFrame } from './reveal-frame.ts';
import { REVIEW_STYLE } from './review-style.ts';
import type { Part } from './part.ts';

export interface ReviewTools {
  readonly manifests: OpenManifests;
  readonly room: PhotoRoom;
  readonly log: Log;
  readonly extensionFolder: Uri;
}

const UNSAVED = 'Now is the text as it stands in the editor; it is not saved.';

/** The page of a review in a panel of the editor: the same that the command line writes, and its frames lead to their lines. */
export class ReviewPanel implements Part {
  readonly #tools: ReviewTools;
  readonly #uri: Uri;
  readonly #panel: WebviewPanel;
  readonly #subscriptions: Part[];
  #review: Review | undefined;

  /** @param compareAgain with the revision that is shown */
  constructor(uri: Uri, tools: ReviewTools, compareAgain: (revision: string) => void) {
    const { manifests, extensionFolder } = tools;
    this.#tools = tools;
    this.#uri = uri;
    this.#panel = window.createWebviewPanel('selvedge.review', 'Crops Compared', ViewColumn.Active, {
      enableScripts: true,
      localResourceRoots: [Uri.joinPath(extensionFolder, 'dist'), Uri.file(join(cacheFolder(), 'thumbnails'))],
    });
    const { webview } = this.#panel;
    this.#subscriptions = [
      webview.onDidReceiveMessage((given: unknown) => {
        const message = readFromReview(given);
        if (!message) tools.log.warn('The page of a review said something that is not understood.');
        else if (message.kind === 'go') void this.#go(message.place);
        else if (message.kind === 'ready') void this.#tellIfOutdated();
        else if (this.#review) compareAgain(this.#review.revision);
      }),
      manifests.onDidCheck(({ manifest }) => {
        if (manifest.document.uri.toString() === uri.toString()) void this.#tellIfOutdated();
      }),
    ];
  }

  get onDidDispose(): WebviewPanel['onDidDispose'] {
    return this.#panel.onDidDispose;
  }

  /** Nothing was ever shown in it. */
  get isEmpty(): boolean {
    return this.#review === undefined;
  }

  reveal(): void {
    this.#panel.reveal();
  }

  /**
   * Shows a review, with the pictures of its crops.
   * @throws the signal's reason when it aborts
   */
  async show(review: Review, isUnsaved: boolean, options: PictureOptions): Promise<void> {
    const { webview } = this.#panel;
    const pictures = await reviewPictures(review, this.#makePicture, options);
    const script = Uri.joinPath(this.#tools.extensionFolder, 'dist', 'review.js');
    this.#review = review;
    this.#panel.title = `Crops Since ${plainLine(review.revision.slice(0, 10), 20)}`;
    webview.html = await formatReviewPage(review, pictures, {
      notes: isUnsaved ? [UNSAVED] : [],
      host: {
        pictures: webview.cspSource,
        style: REVIEW_STYLE,
        script: { address: webview.asWebviewUri(script).toString(), nonce: randomBytes(16).toString('base64') },
      },
    });
  }

  dispose(): void {
    for (const subscription of this.#subscriptions) subscription.dispose();
    this.#panel.dispose();
  }

  readonly #makePicture: MakePicture = async (path, crop, degrees, longEdge) => {
    try {
      const { file } = await this.#tools.room.ask('thumbnail', { path, crop, degrees, longEdge });
      return { address: this.#panel.webview.asWebviewUri(Uri.file(file)).toString() };
    } catch (error) {
      this.#tools.log.debug(`${path}: ${messageOf(error)}`);
      return undefined;
    }
  };

  async #tellIfOutdated(): Promise<void> {
    const text = (await this.#document())?.getText();
    if (text !== this.#review?.session.manifest.text) void this.#panel.webview.postMessage({ kind: 'outdated' });
  }

  /** The frame is known by its name: its line may be another one by now. */
  async #go(place: number): Promise<void> {
    const name = this.#review?.frames[place]?.now?.check.frame.name;
    const document = await this.#document();
    const manifest = document && (await this.#tools.manifests.of(document));
    const frame = manifest?.session.manifest.frames.find((each) => each.name === name);
    if (!manifest || !frame) {
      void window.showWarningMessage(plainMessage(`The text has no frame ${name ?? 'of that place'} any more.`));
      return;
    }
    const column = this.#panel.viewColumn === ViewColumn.One ? ViewColumn.Beside : ViewColumn.One;
    await revealFrame(manifest.document, frame, { takesFocus: true, column });
  }

  async #document() {
    try {
      return await workspace.openTextDocument(this.#uri);
    } catch (error) {
      // Somebody has taken it away.
      this.#tools.log.warn(messageOf(error));
      return undefined;
    }
  }
}
