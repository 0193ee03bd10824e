import { basename, dirname, join } from 'node:path';
import type { WebviewPanel } from 'vscode';
import { commands, TabInputText, Uri, ViewColumn, window, workspace } from 'vscode';
import { readFromSheet, type FromSheet, type ToSheet } from '../panel/sheet-messages.ts';
import { cacheFolder } from '../session/cache-folder.ts';
import { cutFor } from '../session/cut-for.ts';
import { degreesOf } from '../session/frame-scene.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { Delayed } from './delayed.ts';
import { editorOf } from './frame-at-cursor.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainLine } from './plain-text.ts';
import { revealFrame } from './reveal-frame.ts';
import { SheetEdits } from './sheet-edits.ts';
import { pictureName } from './sheet-frames.ts';
import { NeedsYou } from './sheet-needs-you.ts';
import { sheetPage } from './sheet-page.ts';
import { SheetPictures, type WantedPicture } from './sheet-pictures.ts';
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
  readonly #edits: SheetEdits;
  #isReady = false;
  #wantsNeedsYou = false;
  /** The output whose crops are shown. */
  #output: string | undefined;
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
    this.#panel = window.createWebviewPanel(
      'selvedge.sheet',
      `Contact Sheet: ${plainLine(nameOf(uri), 40)}`,
      // It is about many pictures: it has the whole width, and the text comes beside it when somebody goes there.
      ViewColumn.Active,
      { enableScripts: true, localResourceRoots: [thumbnails] },
    );
    const { webview } = this.#panel;
    webview.html = sheetPage(webview, extensionFolder);
    this.#pictures = new SheetPictures(room, log, (picture, file) => {
      const address = file === undefined ? undefined : webview.asWebviewUri(Uri.file(file)).toString();
      this.#post({ kind: 'picture', picture, ...(address !== undefined && { address }) });
    });
    this.#edits = new SheetEdits({
      log,
      manifest: () => this.#manifest(),
      post: (message) => {
        this.#post(message);
      },
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
      workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.uri.toString() === uri.toString() && contentChanges.length > 0) this.#edits.takeChange(document);
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
        if (!workspace.isTrusted) this.#say('Photos are looked at once the folder is trusted.');
        if (this.#edits.pending) this.#post({ kind: 'review', review: this.#edits.pending.review });
        return;
      case 'seen':
        this.#haveDrawn();
        await this.#seePictures(message);
        return;
      case 'go':
        await this.#go(message);
        return;
      case 'act':
        await this.#edits.act(message.act, this.#sent.namesOf(message.indices));
        return;
      case 'write':
        await this.#edits.write(message.leftOut);
        return;
      case 'dismiss':
        this.#edits.dismiss();
        return;
      case 'needs-you':
        this.#wantsNeedsYou = message.isWanted;
        if (message.isWanted) this.#findingNeedsYou.start(0);
        else this.#findingNeedsYou.stop();
        return;
      case 'cut-for':
        this.#output = message.output;
        await this.#showAgain();
        return;
      case 'undo':
        await this.#undo();
    }
  }

  async #showAgain(): Promise<void> {
    const manifest = await this.#manifest();
    if (manifest?.latest) this.#show(manifest, manifest.latest);
    else if (!manifest)
      this.#post({ kind: 'nothing', reason: 'The manifest is not there, or cannot be read. The log says why.' });
  }

  #show(manifest: OpenManifest, check: SessionCheck): void {
    if (!this.#isReady) return;
    if (check.frames.length === 0) {
      this.#sent.forget();
      this.#post({ kind: 'nothing', reason: 'This session has no frame that can be read.' });
      return;
    }
    const ids = [...check.session.manifest.deliver.keys()];
    if (this.#output !== undefined && !ids.includes(this.#output)) this.#output = undefined;
    this.#post({ kind: 'outputs', ids, shown: this.#output });
    this.#post(this.#sent.messageFor(check, (photo) => manifest.sizeOf(photo), this.#output));
    if (this.#wantsNeedsYou) this.#findingNeedsYou.start();
  }

  async #seePictures({ now, after }: About<'seen'>): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) return;
    const { session } = manifest;
    const frames = now.flatMap((index): WantedPicture[] => {
      const check = manifest.frameOf(index);
      if (!check) return [];
      const { straighten: degrees } = check;
      const { crop } = cutFor(check, this.#output);
      const photo = check.frame.photo.value;
      return [{ name: pictureName(photo, crop, degrees), session, photo, crop, degrees }];
    });
    const fixed = this.#edits.pending?.fixed.filter(({ frame }) => after.includes(frame.index)) ?? [];
    const fixes = fixed.map(({ frame, after: crop }): WantedPicture => {
      const degrees = degreesOf(frame);
      const photo = frame.photo.value;
      return { name: pictureName(photo, crop, degrees), session, photo, crop, degrees };
    });
    const wanted = [...frames, ...fixes];
    if (workspace.isTrusted) this.#pictures.want(wanted);
    else for (const { name } of wanted) this.#post({ kind: 'picture', picture: name });
  }

  async #go({ index, isLeaving }: About<'go'>): Promise<void> {
    const manifest = await this.#manifest();
    const frame = manifest?.frameOf(index)?.frame;
    if (!manifest || !frame) return;
    // A click is how somebody selects, too: it moves the text that is seen, and opens none.
    if (isLeaving || editorOf(manifest.document)) {
      await revealFrame(manifest.document, frame, { takesFocus: isLeaving, column: this.#besideIt });
    }
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
    const shown = editorOf(document);
    await window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? this.#besideIt });
    await commands.executeCommand('undo');
    if (!shown) await this.#closeIfElsewhere();
    this.#panel.reveal();
  }

  /** Where the text is opened, so that the sheet stays in sight. */
  get #besideIt(): ViewColumn {
    return this.#panel.viewColumn === ViewColumn.One ? ViewColumn.Beside : ViewColumn.One;
  }

  /** The text was opened for a moment only, and has another tab. */
  async #closeIfElsewhere(): Promise<void> {
    const tabs = window.tabGroups.all.flatMap((group) => group.tabs).filter(({ input }) => input instanceof TabInputText && input.uri.toString() === this.#uri.toString()); // prettier-ignore
    const opened = tabs.find(({ group, isActive }) => isActive && group.isActive);
    if (opened && tabs.length > 1) await window.tabGroups.close(opened);
  }

  /** The manifest, opened again if the editor has given its document back. */
  async #manifest(): Promise<OpenManifest | undefined> {
    try {
      return await this.#tools.manifests.of(await workspace.openTextDocument(this.#uri));
    } catch (error) {
      // Somebody has taken it away.
      this.#tools.log.warn(messageOf(error));
      return undefined;
    }
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

/** The session's folder, and the manifest where a folder may have several. */
function nameOf({ fsPath }: Uri): string {
  const folder = basename(dirname(fsPath));
  const name = basename(fsPath);
  return name === 'crops.yaml' ? folder : name.replace(/\.crops\.yaml$/, '');
}
