import { join } from 'node:path';
import type { TextDocument, TextEditor, WebviewPanel } from 'vscode';
import { commands, Selection, Uri, ViewColumn, window, workspace } from 'vscode';
import { editFrame } from '../manifest/edit.ts';
import { readFromMat, type Direction, type FromMat, type ToMat } from '../panel/messages.ts';
import { cacheFolder } from '../session/cache-folder.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { isPressing } from '../session/located-finding.ts';
import { messageOf, type Log } from './log.ts';
import { isManifest } from './manifest-files.ts';
import { frameForMat, nothing } from './mat-frame.ts';
import { matPage } from './mat-page.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { PhotoRoom } from './photo-room.ts';
import { rangeIn, workspaceEdit } from './places.ts';
import { plainMessage } from './plain-text.ts';
import { photoPathOf } from './thumbnails.ts';
import type { Part } from './part.ts';

/** Pixels of the whole photo's longer edge on the mat. */
const LONG_EDGE = 1600;
const WHOLE_PHOTO = { x: 0, y: 0, w: 1, h: 1 };

export interface MatTools {
  readonly manifests: OpenManifests;
  readonly room: PhotoRoom;
  readonly log: Log;
  readonly extensionFolder: Uri;
}

/** The panel beside the text in which one crop is edited. The text has the truth: the mat shows it and asks for edits. */
export class CuttingMat implements Part {
  readonly #tools: MatTools;
  readonly #panel: WebviewPanel;
  readonly #subscriptions: Part[];
  #document: TextDocument;
  /** Of the frame that is shown. */
  #index: number | undefined;
  #sent = '';

  constructor(document: TextDocument, tools: MatTools) {
    const { extensionFolder } = tools;
    this.#tools = tools;
    this.#document = document;
    const roots = [
      Uri.joinPath(extensionFolder, 'dist'),
      Uri.joinPath(extensionFolder, 'media'),
      Uri.file(join(cacheFolder(), 'thumbnails')),
    ];
    this.#panel = window.createWebviewPanel(
      'selvedge.mat',
      'Cutting Mat',
      { viewColumn: ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: roots },
    );
    this.#panel.webview.html = matPage(this.#panel.webview, extensionFolder);
    this.#subscriptions = [
      this.#panel.webview.onDidReceiveMessage((message: unknown) => void this.#take(readFromMat(message))),
      window.onDidChangeTextEditorSelection(({ textEditor }) => void this.#follow(textEditor)),
      window.onDidChangeActiveTextEditor((editor) => void this.#follow(editor)),
      tools.manifests.onDidCheck(({ manifest }) => {
        if (manifest.document === this.#document) void this.#show();
      }),
    ];
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
      if (message?.kind === 'ready') {
        this.#sent = '';
        this.#index ??= (await this.#frameAtCursor())?.frame.index;
        await this.#show();
      } else if (message?.kind === 'crop') await this.#setCrop(message);
      else if (message?.kind === 'go') await this.#go(message.to);
      else if (message?.kind === 'undo') await this.#undo();
      else this.#tools.log.warn('The cutting mat said something that is not understood.');
    } catch (error) {
      this.#tools.log.error(messageOf(error));
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  }

  async #follow(editor: TextEditor | undefined): Promise<void> {
    if (!editor || !isManifest(editor.document)) return;
    this.#document = editor.document;
    const index = (await this.#frameAtCursor())?.frame.index;
    if (index === undefined) return;
    this.#index = index;
    await this.#show();
  }

  /** The frame at the cursor, or the one before it. */
  async #frameAtCursor(): Promise<FrameCheck | undefined> {
    const manifest = await this.#manifest();
    const cursor = this.#editor()?.selection.active;
    if (!manifest || !cursor) return undefined;
    const offset = this.#document.offsetAt(cursor);
    const { frames } = manifest.session.manifest;
    const line = this.#document.offsetAt(cursor.with({ character: 0 }));
    const isBefore = ({ range }: { range: { start: number } }): boolean =>
      range.start <= offset || (range.start >= line && this.#document.positionAt(range.start).line === cursor.line);
    const frame = frames.findLast(isBefore) ?? frames[0];
    return frame && manifest.frameOf(frame.index);
  }

  async #show(): Promise<void> {
    const manifest = await this.#manifest();
    const check = this.#index === undefined ? undefined : manifest?.frameOf(this.#index);
    if (!manifest || !check) {
      this.#post(nothing('Put the cursor on a frame.'));
      return;
    }
    if (!workspace.isTrusted) {
      this.#post(nothing('Photos are looked at once the folder is trusted.'));
      return;
    }
    const message = frameForMat(manifest.session, check, manifest.sizeOf(check.frame.photo.value));
    if (!this.#post(message) || message.kind !== 'frame') return;
    await this.#showPicture(manifest, check);
  }

  async #showPicture({ session }: OpenManifest, { frame }: FrameCheck): Promise<void> {
    const path = await photoPathOf(session, frame.photo.value);
    if (path === undefined) return;
    try {
      const question = { path, crop: WHOLE_PHOTO, degrees: 0, longEdge: LONG_EDGE };
      const { file } = await this.#tools.room.ask('thumbnail', question);
      const address = this.#panel.webview.asWebviewUri(Uri.file(file)).toString();
      await this.#panel.webview.postMessage({ kind: 'picture', index: frame.index, address } satisfies ToMat);
    } catch (error) {
      this.#tools.log.warn(`${frame.name}: ${messageOf(error)}`);
    }
  }

  /** @returns whether it says anything new */
  #post(message: ToMat): boolean {
    const text = JSON.stringify(message);
    if (text === this.#sent) return false;
    this.#sent = text;
    void this.#panel.webview.postMessage(message);
    return true;
  }

  async #setCrop({ index, crop }: Extract<FromMat, { kind: 'crop' }>): Promise<void> {
    const manifest = await this.#manifest();
    const check = manifest?.frameOf(index);
    if (!manifest || !check || check.frame.final?.value === true) return;
    const edits = editFrame(manifest.session.manifest, index, { crop });
    // Whatever comes of it, what the mat has drawn is not what it was sent.
    this.#sent = '';
    if (edits.length > 0) await workspace.applyEdit(workspaceEdit(this.#document, edits));
    await this.#show();
  }

  async #go(to: Direction): Promise<void> {
    const manifest = await this.#manifest();
    if (!manifest) return;
    const { frames } = manifest.session.manifest;
    const here = frames.findIndex(({ index }) => index === this.#index);
    const onward = [...frames.slice(here + 1), ...frames.slice(0, Math.max(0, here))];
    const frame =
      to === 'previous'
        ? frames[here - 1]
        : to === 'next'
          ? frames[here + 1]
          : onward.find(({ index }) => manifest.frameOf(index)?.findings.some(isPressing));
    if (!frame) return;
    this.#index = frame.index;
    const place = rangeIn(this.#document, frame.photo.range);
    const editor = this.#editor();
    if (editor) {
      editor.selection = new Selection(place.start, place.start);
      editor.revealRange(place);
    }
    await this.#show();
  }

  /** Takes back the last edit of the text, and comes back to the mat. */
  async #undo(): Promise<void> {
    await window.showTextDocument(this.#document, { viewColumn: this.#editor()?.viewColumn ?? ViewColumn.One });
    await commands.executeCommand('undo');
    this.#panel.reveal();
  }

  #editor(): TextEditor | undefined {
    return window.visibleTextEditors.find(({ document }) => document === this.#document);
  }

  async #manifest(): Promise<OpenManifest | undefined> {
    return this.#tools.manifests.of(this.#document);
  }
}

/** The command that opens the mat; there is one mat. */
export function offerMat(tools: MatTools): Part[] {
  let mat: CuttingMat | undefined;
  return [
    commands.registerCommand('selvedge.cuttingMat', () => {
      const document = window.activeTextEditor?.document;
      if (!document || !isManifest(document)) return;
      if (mat) {
        mat.reveal(document);
        return;
      }
      const opened = new CuttingMat(document, tools);
      mat = opened;
      opened.onDidDispose(() => {
        mat = undefined;
        opened.dispose();
      });
    }),
    { dispose: () => mat?.dispose() },
  ];
}
