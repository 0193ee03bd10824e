import type { TextDocument, Uri, WebviewPanel } from 'vscode';
import { commands, ViewColumn, window, workspace } from 'vscode';
import { leftOutWords } from '../session/left-out.ts';
import { isCloser, lengthWords } from '../session/length-change.ts';
import type { FromMat } from '../panel/messages.ts';
import { readFromMat } from '../panel/read-messages.ts';
import { messageOf, type Log } from './log.ts';
import { matPage } from './mat-page.ts';
import type { MatPeople } from './mat-people.ts';
import { picturesFolder } from './mat-pictures.ts';
import { MatShowing, type Seen } from './mat-showing.ts';
import type { MatSwitches } from './mat-switches.ts';
import { stepThrough, writeAllowance, writeChange, writeCrop, writeOutputCrop, type Written } from './mat-text.ts';
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

/** The panel beside the text in which one crop is edited. The text has the truth: the mat shows it and asks for edits. */
export class CuttingMat implements Part {
  readonly #tools: MatTools;
  readonly #people: MatPeople;
  readonly #switches: MatSwitches;
  readonly #panel: WebviewPanel;
  readonly #showing: MatShowing;
  readonly #subscriptions: readonly Part[];
  /** The text's version when people were last corrected: while it is the same, that is what undoing takes back. */
  #correctedAt: number | undefined;

  constructor(document: TextDocument, tools: MatTools, people: MatPeople, switches: MatSwitches) {
    const { extensionFolder } = tools;
    this.#tools = tools;
    this.#people = people;
    this.#switches = switches;
    this.#panel = window.createWebviewPanel(
      'selvedge.mat',
      'Cutting Mat',
      { viewColumn: ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [picturesFolder()] },
    );
    this.#panel.webview.html = matPage(this.#panel.webview, extensionFolder);
    const { webview } = this.#panel;
    this.#showing = new MatShowing(document, { ...tools, people, webview });
    this.#subscriptions = [
      this.#showing,
      webview.onDidReceiveMessage((message: unknown) => void this.#take(readFromMat(message))),
      switches.onDidChange((on) => {
        this.#showing.post({ kind: 'switches', on });
      }),
    ];
  }

  get onDidDispose(): WebviewPanel['onDidDispose'] {
    return this.#panel.onDidDispose;
  }

  reveal(document: TextDocument): void {
    this.#showing.document = document;
    this.#panel.reveal(undefined, true);
    void this.#showing.follow(window.activeTextEditor);
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
      this.#showing.post({ kind: 'notice', text: words });
      void window.showErrorMessage(words);
    }
  }

  async #answer(message: FromMat | undefined): Promise<void> {
    switch (message?.kind) {
      case 'ready':
        this.#showing.forget();
        this.#showing.post({ kind: 'switches', on: this.#switches.on });
        return this.#showing.show();
      case 'crop':
        return this.#write(message.revision, ({ manifest, frame, output }) => {
          if (output !== undefined) return writeOutputCrop(manifest, frame, output, message.crop);
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
        await commands.executeCommand('selvedge.measure', this.#showing.document.uri);
        return;
      case 'go':
        return this.#showing.go(message.to);
      case 'cut-for':
        return this.#showing.cutFor(message.output);
      case 'undo':
      case 'redo':
        if (message.kind === 'undo' && this.#correctedAt === this.#showing.document.version) {
          const manifest = await this.#showing.manifest();
          if (manifest && this.#people.canTakeBack(manifest)) return this.#takeBack(manifest);
        }
        await stepThrough(this.#showing.document, message.kind);
        this.#panel.reveal();
        this.#showing.post({ kind: 'focus' });
        return;
      case 'save':
        if (!this.#showing.document.isClosed) await this.#showing.document.save();
        return;
      case 'switches':
        return this.#switches.set(message.on);
      case 'look':
        return this.#showing.look(message);
      case 'correct':
        return this.#correct(message);
      case 'take-back':
        return this.#takeBack(await this.#showing.manifest());
      default:
        this.#tools.log.warn('The cutting mat said something that is not understood.');
    }
  }

  /** Writes into the text, shows what is there then, and says what it cost or why nothing was written. */
  async #write(revision: number, write: (seen: Seen) => Promise<Written>): Promise<void> {
    const found = await this.#showing.seen(revision);
    // Whatever comes of it, what the mat has drawn is not what it was sent.
    this.#showing.forget();
    const {
      why,
      length,
      leftOut = [],
    }: Written = found ? await write(found) : { why: 'This frame is not in the text any more' };
    await this.#showing.show();
    if (why !== undefined) this.#showing.post({ kind: 'notice', text: `${why}; nothing was written.` });
    else {
      const told = [
        ...(length && isCloser(length) ? [`The picture came closer: ${lengthWords(length)}.`] : []),
        ...(leftOut.length > 0 ? [`It ${leftOutWords(leftOut)}.`] : []),
      ];
      if (told.length > 0) this.#showing.post({ kind: 'notice', text: told.join(' ') });
    }
  }

  async #correct({ revision, correction }: Extract<FromMat, { kind: 'correct' }>): Promise<void> {
    const found = await this.#showing.seen(revision);
    if (!found || !workspace.isTrusted) return;
    const photo = found.frame.photo.value;
    this.#correctedAt = this.#showing.document.version;
    await this.#tellPeople(found.manifest, async (manifest) => {
      const size = manifest.sizeOf(photo);
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
    this.#showing.forget();
    let why: string | undefined;
    try {
      why = await change(manifest);
    } finally {
      await this.#showing.show();
    }
    if (why !== undefined) this.#showing.post({ kind: 'notice', text: why });
  }
}
