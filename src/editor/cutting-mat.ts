import type { TextDocument, TextEditor, Uri, WebviewPanel } from 'vscode';
import { commands, ViewColumn, window, workspace } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import { isCloser, lengthWords } from '../session/length-change.ts';
import type { Direction, FromMat, ToMat } from '../panel/messages.ts';
import { readFromMat } from '../panel/read-messages.ts';
import { frameAtCursor } from './frame-at-cursor.ts';
import { messageOf, type Log } from './log.ts';
import { isManifest } from './manifest-files.ts';
import { frameForMat, nothing, whyNoFrame } from './mat-frame.ts';
import { matPage } from './mat-page.ts';
import type { MatPeople } from './mat-people.ts';
import { MatPictures, picturesFolder } from './mat-pictures.ts';
import { SavedCrops } from './mat-saved.ts';
import { ShownFrames } from './mat-shown.ts';
import type { MatSwitches } from './mat-switches.ts';
import {
  frameTowards,
  sameFrame,
  selectFrame,
  stepThrough,
  writeAllowance,
  writeChange,
  writeCrop,
  type Written,
} from './mat-text.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainMessage } from './plain-text.ts';

export interface MatTools {
  readonly manifests: OpenManifests;
  readonly room: PhotoRoom;
  readonly log: Log;
  readonly extensionFolder: Uri;
}

/** A frame that the mat was shown. */
interface Seen {
  readonly manifest: OpenManifest;
  readonly frame: Frame;
}

/** The panel beside the text in which one crop is edited. The text has the truth: the mat shows it and asks for edits. */
export class CuttingMat implements Part {
  readonly #tools: MatTools;
  readonly #people: MatPeople;
  readonly #switches: MatSwitches;
  readonly #pictures: MatPictures;
  readonly #saved = new SavedCrops();
  readonly #shown = new ShownFrames();
  readonly #panel: WebviewPanel;
  readonly #subscriptions: Part[];
  #document: TextDocument;
  /** The frame that is shown. */
  #frame: Pick<Frame, 'index' | 'name'> | undefined;
  #sent = '';
  /** The text's version when people were last corrected: while it is the same, that is what undoing takes back. */
  #correctedAt: number | undefined;

  constructor(document: TextDocument, tools: MatTools, people: MatPeople, switches: MatSwitches) {
    const { extensionFolder } = tools;
    this.#tools = tools;
    this.#people = people;
    this.#switches = switches;
    this.#document = document;
    this.#panel = window.createWebviewPanel(
      'selvedge.mat',
      'Cutting Mat',
      { viewColumn: ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [picturesFolder()] },
    );
    this.#panel.webview.html = matPage(this.#panel.webview, extensionFolder);
    this.#pictures = new MatPictures(tools.room, tools.log, this.#panel.webview, (message) => {
      this.#post(message);
    });
    this.#subscriptions = [
      this.#pictures,
      this.#panel.webview.onDidReceiveMessage((message: unknown) => void this.#take(readFromMat(message))),
      window.onDidChangeTextEditorSelection(({ textEditor }) => void this.#follow(textEditor)),
      window.onDidChangeActiveTextEditor((editor) => void this.#follow(editor)),
      workspace.onDidSaveTextDocument((saved) => void (saved === this.#document && this.#show())),
      workspace.onDidCloseTextDocument((closed) => void (closed === this.#document && this.#show())),
      tools.manifests.onDidCheck(({ manifest }) => void (manifest.document === this.#document && this.#show())),
      switches.onDidChange((on) => {
        this.#post({ kind: 'switches', on });
      }),
    ];
    void this.#prepare();
  }

  get onDidDispose(): WebviewPanel['onDidDispose'] {
    return this.#panel.onDidDispose;
  }

  reveal(document: TextDocument): void {
    this.#document = document;
    this.#panel.reveal(undefined, true);
    void this.#follow(window.activeTextEditor);
  }

  dispose(): void {
    for (const subscription of this.#subscriptions) subscription.dispose();
    this.#panel.dispose();
  }

  async #take(message: FromMat | undefined): Promise<void> {
    try {
      await this.#answer(message);
    } catch (error) {
      const words = plainMessage(messageOf(error));
      this.#tools.log.error(words);
      this.#post({ kind: 'notice', text: words });
      void window.showErrorMessage(words);
    }
  }

  async #answer(message: FromMat | undefined): Promise<void> {
    switch (message?.kind) {
      case 'ready':
        this.#sent = '';
        this.#post({ kind: 'switches', on: this.#switches.on });
        return this.#show();
      case 'crop':
        return this.#write(message.revision, ({ manifest, frame }) => {
          return writeCrop(manifest, frame, message.crop, message.degrees);
        });
      case 'allow':
        return this.#write(message.revision, ({ manifest, frame }) => {
          return writeAllowance(manifest, frame, message.key, message.reason);
        });
      case 'approve':
        return this.#write(message.revision, ({ manifest, frame }) => {
          return writeChange(manifest, frame, { final: message.isFinal });
        });
      case 'measure':
        await commands.executeCommand('selvedge.measure', this.#document.uri);
        return;
      case 'go':
        return this.#go(message.to);
      case 'undo':
      case 'redo':
        if (message.kind === 'undo' && this.#correctedAt === this.#document.version) {
          const manifest = await this.#manifest();
          if (manifest && this.#people.canTakeBack(manifest)) return this.#takeBack(manifest);
        }
        await stepThrough(this.#document, message.kind);
        this.#panel.reveal();
        return;
      case 'save':
        if (!this.#document.isClosed) await this.#document.save();
        return;
      case 'switches':
        return this.#switches.set(message.on);
      case 'look':
        return this.#look(message);
      case 'correct':
        return this.#correct(message);
      case 'take-back':
        return this.#takeBack(await this.#manifest());
      default:
        this.#tools.log.warn('The cutting mat said something that is not understood.');
    }
  }

  async #follow(editor: TextEditor | undefined): Promise<void> {
    if (!editor || !isManifest(editor.document)) return;
    this.#document = editor.document;
    const manifest = await this.#manifest();
    const frame = manifest && frameAtCursor(this.#document, manifest.session.manifest.frames);
    if (!frame) return;
    this.#frame = frame;
    await this.#show();
  }

  /** The photo is looked at while the page still loads. */
  async #prepare(): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest || !workspace.isTrusted) return;
    const { session } = manifest;
    const frame = frameAtCursor(this.#document, session.manifest.frames);
    if (frame) await this.#pictures.prepare(session, frame);
  }

  async #show(): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) {
      this.#post(nothing('This manifest is not open any more. Open one and put the cursor on a frame.'));
      return;
    }
    const { session } = manifest;
    this.#frame ??= frameAtCursor(this.#document, session.manifest.frames);
    const frame = this.#frame && sameFrame(session.manifest.frames, this.#frame);
    const check = frame && manifest.frameOf(frame.index);
    if (!check) {
      this.#post(nothing(whyNoFrame(session.manifest, this.#document)));
      return;
    }
    if (!workspace.isTrusted) {
      this.#post(nothing('Photos are looked at once the folder is trusted.'));
      return;
    }
    this.#frame = check.frame;
    const size = session.people.photos.get(check.frame.photo.value)?.size ?? manifest.sizeOf(check.frame.photo.value);
    const saved = size && (await this.#saved.find(this.#document, check.frame.name, size));
    const canTakeBack = this.#people.canTakeBack(manifest);
    const state = manifest.photoStateOf(check.frame.photo.value);
    const details = { size, state, saved, canTakeBack, revision: 0 };
    const message = frameForMat(session, check, details);
    if (message.kind !== 'frame') {
      this.#post(message);
      return;
    }
    const text = JSON.stringify(message);
    if (text === this.#sent) return;
    const revision = this.#shown.note(check.frame);
    this.#post({ ...message, frame: { ...message.frame, revision } });
    this.#sent = text;
    await this.#pictures.show({ session, frame: check.frame, revision });
  }

  #post(message: ToMat): void {
    if (message.kind === 'nothing' || message.kind === 'frame') this.#sent = '';
    void this.#panel.webview.postMessage(message);
  }

  async #look({ revision, region, longEdge }: Extract<FromMat, { kind: 'look' }>): Promise<void> {
    const found = await this.#seen(revision);
    if (!found || revision !== this.#shown.last) return;
    const { manifest, frame } = found;
    await this.#pictures.showPart({ session: manifest.session, frame, revision }, region, longEdge);
  }

  /** Writes into the text, shows what is there then, and says what it cost or why nothing was written. */
  async #write(revision: number, write: (seen: Seen) => Promise<Written>): Promise<void> {
    const found = await this.#seen(revision);
    // Whatever comes of it, what the mat has drawn is not what it was sent.
    this.#sent = '';
    const { why, length }: Written = found ? await write(found) : { why: 'This frame is not in the text any more' };
    await this.#show();
    if (why !== undefined) this.#post({ kind: 'notice', text: `${why}; nothing was written.` });
    else if (length && isCloser(length)) {
      this.#post({ kind: 'notice', text: `The picture came closer: ${lengthWords(length)}.` });
    }
  }

  async #correct({ revision, correction }: Extract<FromMat, { kind: 'correct' }>): Promise<void> {
    const found = await this.#seen(revision);
    if (!found || !workspace.isTrusted) return;
    const photo = found.frame.photo.value;
    this.#correctedAt = this.#document.version;
    await this.#tellPeople(found.manifest, async (manifest) => {
      const size = manifest.session.people.photos.get(photo)?.size ?? manifest.sizeOf(photo);
      return size && this.#people.correct(manifest, { photo, size }, correction);
    });
  }

  async #takeBack(manifest: OpenManifest | undefined): Promise<void> {
    await this.#tellPeople(manifest, (each) => this.#people.takeBack(each));
  }

  /** Changes people, says why when that did not go, and shows what is there now. */
  async #tellPeople(
    manifest: OpenManifest | undefined,
    change: (manifest: OpenManifest) => Promise<string | undefined>,
  ): Promise<void> {
    if (!manifest) return;
    this.#sent = '';
    let why: string | undefined;
    try {
      why = await change(manifest);
    } finally {
      await this.#show();
    }
    if (why !== undefined) this.#post({ kind: 'notice', text: why });
  }

  async #go(to: Direction): Promise<void> {
    const manifest = await this.#manifest();
    const frame = manifest && frameTowards(manifest, this.#frame, to);
    if (!frame) return;
    this.#frame = frame;
    selectFrame(this.#document, frame);
    await this.#show();
  }

  /** The frame that the mat was shown with a message, as it is in the text now. */
  async #seen(revision: number): Promise<Seen | undefined> {
    const manifest = await this.#manifest();
    const name = this.#shown.nameOf(revision);
    const frame = manifest?.session.manifest.frames.find((each) => each.name === name);
    return manifest && frame && { manifest, frame };
  }

  async #manifest(): Promise<OpenManifest | undefined> {
    return this.#tools.manifests.of(this.#document);
  }
}
