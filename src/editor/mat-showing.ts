import type { TextDocument, TextEditor, Webview } from 'vscode';
import { window, workspace } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import type { Direction, FromMat, ToMat } from '../panel/messages.ts';
import { frameAtCursor } from './frame-at-cursor.ts';
import type { Log } from './log.ts';
import { isManifest } from './manifest-files.ts';
import { frameForMat, nothing, whyNoFrame } from './mat-frame.ts';
import type { MatPeople } from './mat-people.ts';
import { MatPictures } from './mat-pictures.ts';
import { SavedCrops } from './mat-saved.ts';
import { ShownFrames } from './mat-shown.ts';
import { frameTowards, sameFrame, selectFrame } from './mat-text.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';
import type { PhotoRoom } from './photo-room.ts';

export interface MatShowingTools {
  readonly manifests: OpenManifests;
  readonly room: PhotoRoom;
  readonly log: Log;
  readonly people: MatPeople;
  readonly webview: Webview;
}

/** A frame that the mat was shown. */
export interface Seen {
  readonly manifest: OpenManifest;
  readonly frame: Frame;
  /** The output whose crop was shown; absent: the main crop. */
  readonly output: string | undefined;
}

/** What lies on the mat: the frame at the cursor with its photo, followed in the text, and sent again when it says something else. */
export class MatShowing implements Part {
  readonly #tools: MatShowingTools;
  readonly #pictures: MatPictures;
  readonly #saved = new SavedCrops();
  readonly #shown = new ShownFrames();
  readonly #subscriptions: readonly Part[];
  /** The frame that is shown. */
  #frame: Pick<Frame, 'index' | 'name'> | undefined;
  /** The output whose crops are shown. */
  #output: string | undefined;
  #sent = '';
  document: TextDocument;

  constructor(document: TextDocument, tools: MatShowingTools) {
    this.document = document;
    this.#tools = tools;
    this.#pictures = new MatPictures(tools.room, tools.log, tools.webview, (message) => {
      this.post(message);
    });
    const showIf = (isMeant: boolean): void => void (isMeant && this.show());
    this.#subscriptions = [
      this.#pictures,
      window.onDidChangeTextEditorSelection(({ textEditor }) => void this.follow(textEditor)),
      window.onDidChangeActiveTextEditor((editor) => void this.follow(editor)),
      workspace.onDidSaveTextDocument((saved) => {
        showIf(saved === this.document);
      }),
      workspace.onDidCloseTextDocument((closed) => {
        showIf(closed === this.document);
      }),
      tools.manifests.onDidCheck(({ manifest }) => {
        showIf(manifest.document === this.document);
      }),
    ];
    void this.#prepare();
  }

  /** Takes the frame at the cursor. */
  async follow(editor: TextEditor | undefined): Promise<void> {
    if (!editor || !isManifest(editor.document)) return;
    this.document = editor.document;
    const manifest = await this.manifest();
    const frame = manifest && frameAtCursor(this.document, manifest.session.manifest.frames);
    if (!frame) return;
    this.#frame = frame;
    await this.show();
  }

  /** Goes to another frame, in the text, too. */
  async go(to: Direction): Promise<void> {
    const manifest = await this.manifest();
    const frame = manifest && frameTowards(manifest, this.#frame, to, this.#output);
    if (!frame) return;
    this.#frame = frame;
    selectFrame(this.document, frame);
    await this.show();
  }

  /** Shows the crops of an output from now on, or the main ones. */
  async cutFor(output: string | undefined): Promise<void> {
    this.#output = output;
    this.forget();
    await this.show();
  }

  /** Shows the frame as it is in the text now, or why it cannot; what the page has already is not sent again. */
  async show(): Promise<void> {
    const manifest = await this.manifest();
    if (!manifest) {
      this.post(nothing('This manifest is not open any more. Open one and put the cursor on a frame.'));
      return;
    }
    const { session } = manifest;
    this.#frame ??= frameAtCursor(this.document, session.manifest.frames);
    const frame = this.#frame && sameFrame(session.manifest.frames, this.#frame);
    const check = frame && manifest.frameOf(frame.index);
    if (!check) {
      this.post(nothing(whyNoFrame(session.manifest, this.document)));
      return;
    }
    if (!workspace.isTrusted) {
      this.post(nothing('Photos are looked at once the folder is trusted.'));
      return;
    }
    this.#frame = check.frame;
    const photo = check.frame.photo.value;
    const size = manifest.sizeOf(photo);
    const saved = size && (await this.#saved.find(this.document, check.frame.name, size));
    const canTakeBack = this.#tools.people.canTakeBack(manifest);
    const output = this.#output === undefined ? undefined : session.manifest.deliver.get(this.#output);
    const details = { size, state: manifest.photoStateOf(photo), saved, canTakeBack, output, revision: 0 };
    const message = frameForMat(session, check, details);
    if (message.kind !== 'frame') {
      this.post(message);
      return;
    }
    const text = JSON.stringify(message);
    if (text === this.#sent) return;
    const revision = this.#shown.note(check.frame, output?.id);
    this.post({ ...message, frame: { ...message.frame, revision } });
    this.#sent = text;
    await this.#pictures.show({ session, frame: check.frame, revision });
  }

  /** The page has drawn something else than what it was sent: the next time it is sent all of it. */
  forget(): void {
    this.#sent = '';
  }

  /** Has a part of the photo shown that is looked at closely. */
  async look({ revision, region, longEdge }: Extract<FromMat, { kind: 'look' }>): Promise<void> {
    const seen = await this.seen(revision);
    if (!seen || revision !== this.#shown.last) return;
    const { manifest, frame } = seen;
    await this.#pictures.showPart({ session: manifest.session, frame, revision }, region, longEdge);
  }

  /** The frame that the mat was shown with a message, as it is in the text now. */
  async seen(revision: number): Promise<Seen | undefined> {
    const manifest = await this.manifest();
    const shown = this.#shown.of(revision);
    const frame = manifest?.session.manifest.frames.find((each) => each.name === shown?.name);
    return manifest && frame && { manifest, frame, output: shown?.output };
  }

  async manifest(): Promise<OpenManifest | undefined> {
    return this.#tools.manifests.of(this.document);
  }

  post(message: ToMat): void {
    if (message.kind === 'nothing' || message.kind === 'frame') this.#sent = '';
    void this.#tools.webview.postMessage(message);
  }

  dispose(): void {
    for (const subscription of this.#subscriptions) subscription.dispose();
  }

  /** The photo is looked at while the page still loads. */
  async #prepare(): Promise<void> {
    const manifest = await this.manifest();
    if (!manifest || !workspace.isTrusted) return;
    const { session } = manifest;
    const frame = frameAtCursor(this.document, session.manifest.frames);
    if (frame) await this.#pictures.prepare(session, frame);
  }
}
