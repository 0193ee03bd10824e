import { join } from 'node:path';
import type { TextDocument } from 'vscode';
import { EventEmitter, RelativePattern, Uri, window, workspace } from 'vscode';
import { peoplePathOf } from '../session/session.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { messageOf, type Log } from './log.ts';
import { lookingAtPhotos } from './look-at-photos.ts';
import { isManifest } from './manifest-files.ts';
import { OpenManifest } from './open-manifest.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainMessage } from './plain-text.ts';
import { PhotoWatch } from './photo-watch.ts';
import type { Part } from './part.ts';
import { photosFolderFor } from './workspace-manifests.ts';

export interface Checked {
  readonly manifest: OpenManifest;
  readonly check: SessionCheck;
}

/** The manifests that are open in the editor. */
export class OpenManifests implements Part {
  readonly #log: Log;
  readonly #room: PhotoRoom;
  readonly #open = new Map<string, Promise<OpenManifest | undefined>>();
  readonly #ready = new Map<string, OpenManifest>();
  readonly #parts = new Map<string, Part[]>();
  readonly #checked = new EventEmitter<Checked>();
  readonly #closed = new EventEmitter<Uri>();
  readonly #subscriptions: Part[];

  readonly onDidCheck = this.#checked.event;
  readonly onDidClose = this.#closed.event;

  constructor(room: PhotoRoom, log: Log) {
    this.#room = room;
    this.#log = log;
    this.#subscriptions = [
      workspace.onDidOpenTextDocument((document) => void this.of(document)),
      workspace.onDidCloseTextDocument((document) => {
        this.#close(document);
      }),
      workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (contentChanges.length > 0) this.#ready.get(keyOf(document))?.takeChanges(contentChanges);
      }),
      workspace.onDidGrantWorkspaceTrust(() => {
        this.#reopen();
      }),
      workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration('selvedge.photosFolders')) this.#reopen();
      }),
    ];
    for (const document of workspace.textDocuments) void this.of(document);
  }

  /** The manifest of a document, opened if need be; undefined when the document is none, or cannot be one. */
  async of(document: TextDocument): Promise<OpenManifest | undefined> {
    if (!isManifest(document) || document.isClosed) return undefined;
    const key = keyOf(document);
    const known = this.#open.get(key);
    if (known) return known;
    const opening = this.#openOne(document).catch((error: unknown) => {
      this.#log.error(`${document.uri.fsPath}: ${messageOf(error)}`);
      void window.showErrorMessage(plainMessage(messageOf(error)));
      return undefined;
    });
    this.#open.set(key, opening);
    return opening;
  }

  /** The manifest of a document when it is open already. */
  opened(document: TextDocument): OpenManifest | undefined {
    return this.#ready.get(keyOf(document));
  }

  dispose(): void {
    for (const document of workspace.textDocuments) this.#close(document);
    for (const subscription of this.#subscriptions) subscription.dispose();
    this.#checked.dispose();
    this.#closed.dispose();
  }

  async #openOne(document: TextDocument): Promise<OpenManifest> {
    const began = performance.now();
    const { fsPath } = document.uri;
    const manifest = await OpenManifest.open(document, {
      log: this.#log,
      lookAtPhotos: workspace.isTrusted ? lookingAtPhotos(this.#room) : undefined,
      warn: (message) => void window.showWarningMessage(plainMessage(message)),
      photosFolder: photosFolderFor(document.uri),
    });
    const key = keyOf(document);
    this.#ready.set(key, manifest);
    this.#parts.set(key, [
      manifest,
      manifest.onDidCheck((check) => {
        this.#checked.fire({ manifest, check });
      }),
      watchPeople(manifest),
      ...(workspace.isTrusted ? [new PhotoWatch(manifest)] : []),
    ]);
    this.#log.info(`opened ${fsPath}: ${Math.round(performance.now() - began)} ms`);
    if (document.isClosed) this.#close(document);
    return manifest;
  }

  #close(document: TextDocument): void {
    const key = keyOf(document);
    if (!this.#open.delete(key)) return;
    this.#ready.delete(key);
    for (const part of this.#parts.get(key) ?? []) part.dispose();
    this.#parts.delete(key);
    this.#closed.fire(document.uri);
  }

  #reopen(): void {
    for (const document of workspace.textDocuments) {
      this.#close(document);
      void this.of(document);
    }
  }
}

function keyOf(document: TextDocument): string {
  return document.uri.toString();
}

function watchPeople(manifest: OpenManifest): Part {
  const path = peoplePathOf(manifest.document.uri.fsPath);
  const folder = Uri.file(join(path, '..'));
  const watcher = workspace.createFileSystemWatcher(new RelativePattern(folder, path.slice(folder.fsPath.length + 1)));
  const read = (): void => void manifest.readPeople();
  watcher.onDidChange(read);
  watcher.onDidCreate(read);
  watcher.onDidDelete(read);
  return watcher;
}
