import { basename, dirname, join } from 'node:path';
import type { WebviewPanel } from 'vscode';
import { commands, ProgressLocation, Uri, ViewColumn, window, workspace } from 'vscode';
import { editFrames, type FrameChange } from '../manifest/edit.ts';
import { readFromSheet, type Act, type FromSheet, type ToSheet } from '../panel/sheet-messages.ts';
import { cacheFolder } from '../session/cache-folder.ts';
import { degreesOf } from '../session/frame-scene.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { signalOf } from './cancelling.ts';
import { Delayed } from './delayed.ts';
import { messageOf, type Log } from './log.ts';
import { isManifest } from './manifest-files.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { PhotoRoom } from './photo-room.ts';
import { workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';
import { revealFrame } from './reveal-frame.ts';
import { askFor, askForRule } from './sheet-acts.ts';
import { pictureName } from './sheet-frames.ts';
import { NeedsYou } from './sheet-needs-you.ts';
import { sheetPage } from './sheet-page.ts';
import { SheetPictures, type WantedPicture } from './sheet-pictures.ts';
import { editsOf, findFixes, type FixQuestion, type PendingFix } from './sheet-review.ts';
import { SentFrames } from './sheet-sent.ts';
import type { Part } from './part.ts';

export interface SheetTools {
  readonly manifests: OpenManifests;
  readonly room: PhotoRoom;
  readonly log: Log;
  readonly extensionFolder: Uri;
}

type About<Kind extends FromSheet['kind']> = Extract<FromSheet, { kind: Kind }>;

/** All frames of one session as they will be delivered. The text has the truth: the sheet shows it and asks for edits. */
export class ContactSheet implements Part {
  readonly #tools: SheetTools;
  readonly #uri: Uri;
  readonly #panel: WebviewPanel;
  readonly #subscriptions: Part[];
  readonly #pictures: SheetPictures;
  readonly #needsYou = new NeedsYou();
  readonly #findingNeedsYou: Delayed;
  readonly #sent = new SentFrames();
  #isReady = false;
  #wantsNeedsYou = false;
  #pending: PendingFix | undefined;
  #haveDrawn: () => void = () => undefined;
  /** Settles when the first screen of frames is there, or never will be. */
  readonly drawn = new Promise<void>((resolve) => {
    this.#haveDrawn = resolve;
  });

  constructor(uri: Uri, tools: SheetTools) {
    const { manifests, room, log, extensionFolder } = tools;
    this.#tools = tools;
    this.#uri = uri;
    const thumbnails = Uri.file(join(cacheFolder(), 'thumbnails'));
    const roots = [Uri.joinPath(extensionFolder, 'dist'), Uri.joinPath(extensionFolder, 'media'), thumbnails];
    this.#panel = window.createWebviewPanel(
      'selvedge.sheet',
      `Contact Sheet: ${plainLine(nameOf(uri), 40)}`,
      ViewColumn.Beside,
      { enableScripts: true, localResourceRoots: roots },
    );
    const { webview } = this.#panel;
    webview.html = sheetPage(webview, extensionFolder);
    this.#pictures = new SheetPictures(room, log, (picture, file) => {
      const address = file === undefined ? undefined : webview.asWebviewUri(Uri.file(file)).toString();
      this.#post({ kind: 'picture', picture, ...(address !== undefined && { address }) });
    });
    this.#findingNeedsYou = new Delayed(300, (signal) => this.#findNeedsYou(signal), this.#tell);
    this.#subscriptions = [
      this.#pictures,
      this.#findingNeedsYou,
      webview.onDidReceiveMessage((message: unknown) => void this.#take(readFromSheet(message))),
      this.#panel.onDidChangeViewState(() => {
        // A page that is hidden is given back, and says that it is ready when it is there again.
        if (!this.#panel.visible) this.#isReady = false;
      }),
      manifests.onDidCheck(({ manifest, check }) => {
        if (manifest.document.uri.toString() === uri.toString()) this.#show(manifest, check);
      }),
      manifests.onDidClose((closed) => {
        if (closed.toString() === uri.toString()) void this.#showAgain();
      }),
    ];
  }

  get onDidDispose(): WebviewPanel['onDidDispose'] {
    return this.#panel.onDidDispose;
  }

  reveal(): void {
    this.#panel.reveal();
  }

  dispose(): void {
    this.#haveDrawn();
    for (const subscription of this.#subscriptions) subscription.dispose();
    this.#panel.dispose();
  }

  async #take(message: FromSheet | undefined): Promise<void> {
    try {
      if (!message) {
        this.#tools.log.warn('The contact sheet said something that is not understood.');
        return;
      }
      if ('revision' in message && message.revision !== this.#sent.revision) {
        if (message.kind !== 'seen') this.#say('The text changed meanwhile. Do the same again.');
        return;
      }
      await this.#do(message);
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') this.#say('');
      else this.#tell(error);
    }
  }

  async #do(message: FromSheet): Promise<void> {
    switch (message.kind) {
      case 'ready':
        this.#isReady = true;
        this.#sent.forget();
        await this.#showAgain();
        if (this.#pending) this.#post({ kind: 'review', review: this.#pending.review });
        return;
      case 'seen':
        this.#haveDrawn();
        await this.#seePictures(message);
        return;
      case 'go':
        await this.#go(message);
        return;
      case 'act':
        await this.#act(message.act, message.indices);
        return;
      case 'write':
        await this.#write(message.leftOut);
        return;
      case 'dismiss':
        this.#endReview('Nothing was changed.');
        return;
      case 'needs-you':
        this.#wantsNeedsYou = message.isWanted;
        if (message.isWanted) this.#findingNeedsYou.start(0);
        else this.#findingNeedsYou.stop();
        return;
      case 'undo':
        await this.#undo();
    }
  }

  async #showAgain(): Promise<void> {
    const manifest = await this.#manifest();
    if (manifest?.latest) this.#show(manifest, manifest.latest);
    else if (!manifest) this.#post({ kind: 'nothing', reason: 'The manifest cannot be read. The log says why.' });
  }

  #show(manifest: OpenManifest, check: SessionCheck): void {
    if (!this.#isReady) return;
    if (check.frames.length === 0) {
      this.#sent.forget();
      this.#post({ kind: 'nothing', reason: 'This session has no frame that can be read.' });
      return;
    }
    this.#post(this.#sent.messageFor(check, (photo) => manifest.sizeOf(photo)));
    if (this.#wantsNeedsYou) this.#findingNeedsYou.start();
  }

  async #seePictures({ now, after }: About<'seen'>): Promise<void> {
    const manifest = workspace.isTrusted ? await this.#manifest() : undefined;
    if (!manifest) return;
    const { session } = manifest;
    const frames = now.flatMap((index): WantedPicture[] => {
      const check = manifest.frameOf(index);
      if (!check) return [];
      const { crop, straighten: degrees } = check;
      const photo = check.frame.photo.value;
      return [{ name: pictureName(photo, crop, degrees), session, photo, crop, degrees }];
    });
    const fixed = this.#pending?.fixed.filter(({ frame }) => after.includes(frame.index)) ?? [];
    const fixes = fixed.map(({ frame, after: crop }): WantedPicture => {
      const degrees = degreesOf(frame);
      const photo = frame.photo.value;
      return { name: pictureName(photo, crop, degrees), session, photo, crop, degrees };
    });
    this.#pictures.want([...frames, ...fixes]);
  }

  async #go({ index, isLeaving }: About<'go'>): Promise<void> {
    const manifest = await this.#manifest();
    const frame = manifest?.frameOf(index)?.frame;
    const column = this.#panel.viewColumn === ViewColumn.One ? ViewColumn.Beside : ViewColumn.One;
    if (manifest && frame) await revealFrame(manifest.document, frame, { takesFocus: isLeaving, column });
  }

  async #act(act: Act, indices: readonly number[]): Promise<void> {
    const names = this.#sent.namesOf(indices);
    const checks = await this.#checksOf(names);
    if (act === 'fix') await this.#fix({ names, rule: undefined });
    else if (act === 'fix-rule') {
      const rule = await askForRule(checks);
      if (rule === undefined) this.#say('');
      else await this.#fix({ names, rule });
    } else {
      const changeOf = await askFor(act, checks);
      if (changeOf) await this.#change(names, changeOf);
    }
  }

  async #change(names: ReadonlySet<string>, changeOf: NonNullable<Awaited<ReturnType<typeof askFor>>>): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) return;
    const changes = new Map<number, FrameChange>();
    for (const check of await this.#checksOf(names)) {
      const change = changeOf(check);
      if (change) changes.set(check.frame.index, change);
    }
    const edits = editFrames(manifest.session.manifest, changes);
    if (edits.length > 0) await applyEdit(manifest, edits);
    const left = names.size - changes.size;
    const rest = left === 0 ? '' : ` ${frameWords(left)} stayed as ${left === 1 ? 'it is' : 'they are'}.`;
    this.#say(`${frameWords(edits.length === 0 ? 0 : changes.size)} changed.${rest}`);
  }

  async #fix(question: FixQuestion): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) return;
    this.#pending = await window.withProgress(
      { location: ProgressLocation.Notification, title: 'Looking for better crops', cancellable: true },
      (_, token) => findFixes(manifest, question, signalOf(token)),
    );
    this.#post({ kind: 'review', review: this.#pending.review });
  }

  async #write(leftOut: readonly number[]): Promise<void> {
    const manifest = await this.#manifest();
    const pending = this.#pending;
    if (!manifest || !pending) return;
    if (manifest.document.getText() !== pending.session.manifest.text) {
      await this.#fix(pending.question);
      this.#say('The text changed meanwhile, and nothing was written. These are the crops for the text as it is now.');
      return;
    }
    const edits = editsOf(pending, leftOut);
    if (edits.length > 0) await applyEdit(manifest, edits);
    const number = pending.fixed.filter(({ frame }) => !leftOut.includes(frame.index)).length;
    for (const { frame, moved } of pending.fixed) {
      if (!leftOut.includes(frame.index)) this.#tools.log.info(`fixed ${frame.name}: moved ${(moved * 100).toFixed(1)} %`); // prettier-ignore
    }
    this.#endReview(`${frameWords(number)} changed. Undo takes ${number === 1 ? 'it' : 'all'} back.`);
  }

  #endReview(words: string): void {
    this.#pending = undefined;
    this.#post({ kind: 'review-end' });
    this.#say(words);
  }

  async #findNeedsYou(signal: AbortSignal): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) return;
    const indices = await this.#needsYou.find(await manifest.check(signal), signal);
    this.#post({ kind: 'needs-you', indices });
  }

  /** Takes back the last edit of the text, and comes back to the sheet. */
  async #undo(): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) return;
    const { document } = manifest;
    const shown = window.visibleTextEditors.find((editor) => editor.document === document);
    await window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? ViewColumn.One });
    await commands.executeCommand('undo');
    this.#panel.reveal();
  }

  /** The manifest, opened again if the editor has given its document back. */
  async #manifest(): Promise<OpenManifest | undefined> {
    const document = await workspace.openTextDocument(this.#uri);
    return this.#tools.manifests.of(document);
  }

  async #checksOf(names: ReadonlySet<string>) {
    const check = await (await this.#manifest())?.check();
    return check?.frames.filter(({ frame }) => names.has(frame.name)) ?? [];
  }

  #say(text: string): void {
    this.#post({ kind: 'told', text });
  }

  readonly #tell = (error: unknown): void => {
    this.#tools.log.error(messageOf(error));
    this.#say('');
    void window.showErrorMessage(plainLine(messageOf(error)));
  };

  #post(message: ToSheet): void {
    if (this.#isReady) void this.#panel.webview.postMessage(message);
  }
}

async function applyEdit({ document }: OpenManifest, edits: Parameters<typeof workspaceEdit>[1]): Promise<void> {
  const isDone = await workspace.applyEdit(workspaceEdit(document, edits));
  if (!isDone) throw new Error('The editor did not take the change; nothing was written.');
}

function frameWords(number: number): string {
  return number === 0 ? 'No frame' : number === 1 ? '1 frame' : `${number.toLocaleString('en')} frames`;
}

/** The session's folder, and the manifest where a folder may have several. */
function nameOf({ fsPath }: Uri): string {
  const folder = basename(dirname(fsPath));
  const name = basename(fsPath);
  return name === 'crops.yaml' ? folder : name.replace(/\.crops\.yaml$/, '');
}

/** The command that opens the sheet of a session; there is one for each. It ends when the first frames are drawn. */
export function offerSheet(tools: SheetTools): Part[] {
  const sheets = new Map<string, ContactSheet>();
  return [
    commands.registerCommand('selvedge.contactSheet', async (given: unknown) => {
      const uri = given instanceof Uri ? given : window.activeTextEditor?.document.uri;
      if (!uri || !isManifest({ uri })) return;
      const key = uri.toString();
      const known = sheets.get(key);
      if (known) {
        known.reveal();
        return;
      }
      const sheet = new ContactSheet(uri, tools);
      sheets.set(key, sheet);
      sheet.onDidDispose(() => {
        sheets.delete(key);
        sheet.dispose();
      });
      await sheet.drawn;
    }),
    {
      dispose: () => {
        for (const sheet of sheets.values()) sheet.dispose();
      },
    },
  ];
}
