import type { FileSystemWatcher } from 'vscode';
import { RelativePattern, Uri, workspace } from 'vscode';
import { isPictureName } from '../photos/file-names.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { Part } from './part.ts';

/** Tells an open manifest when pictures in its photos folder come, change or go; follows it to another folder. */
export class PhotoWatch implements Part {
  readonly #manifest: OpenManifest;
  readonly #subscription: Part;
  #folder: string | undefined;
  #watcher: FileSystemWatcher | undefined;

  constructor(manifest: OpenManifest) {
    this.#manifest = manifest;
    this.#subscription = manifest.onDidCheck(({ session: { photosFolder } }) => {
      this.#follow('path' in photosFolder ? photosFolder.path : undefined);
    });
  }

  dispose(): void {
    this.#subscription.dispose();
    this.#watcher?.dispose();
  }

  #follow(folder: string | undefined): void {
    if (folder === this.#folder) return;
    this.#folder = folder;
    this.#watcher?.dispose();
    this.#watcher = undefined;
    if (folder === undefined) return;
    const look = (uri: Uri): void => {
      if (isPictureName(uri.fsPath)) this.#manifest.lookAgain();
    };
    this.#watcher = workspace.createFileSystemWatcher(new RelativePattern(Uri.file(folder), '**/*'));
    this.#watcher.onDidChange(look);
    this.#watcher.onDidCreate(look);
    this.#watcher.onDidDelete(look);
  }
}
