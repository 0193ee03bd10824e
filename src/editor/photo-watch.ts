import { dirname, sep } from 'node:path';
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
  #watchers: readonly FileSystemWatcher[] = [];

  constructor(manifest: OpenManifest) {
    this.#manifest = manifest;
    this.#subscription = manifest.onDidCheck(({ session: { photosFolder } }) => {
      this.#follow('path' in photosFolder ? photosFolder.path : undefined);
    });
  }

  dispose(): void {
    this.#subscription.dispose();
    this.#stop();
  }

  #follow(folder: string | undefined): void {
    if (folder === this.#folder) return;
    this.#folder = folder;
    this.#stop();
    if (folder === undefined) return;
    const look = (uri: Uri): void => {
      if (isPictureName(uri.fsPath)) this.#manifest.lookAgain();
    };
    const inside = workspace.createFileSystemWatcher(new RelativePattern(Uri.file(folder), '**/*'));
    inside.onDidChange(look);
    inside.onDidCreate(look);
    inside.onDidDelete(look);
    this.#watchers = [inside, this.#watchAbove(folder)];
  }

  /** A folder that is renamed says nothing of the files in it. */
  #watchAbove(folder: string): FileSystemWatcher {
    const top = workspace.getWorkspaceFolder(Uri.file(folder))?.uri ?? Uri.file(dirname(folder));
    const above = workspace.createFileSystemWatcher(new RelativePattern(top, '**'), false, true, false);
    const look = ({ fsPath }: Uri): void => {
      if (folder === fsPath || folder.startsWith(fsPath + sep)) this.#manifest.lookAgain();
    };
    above.onDidCreate(look);
    above.onDidDelete(look);
    return above;
  }

  #stop(): void {
    for (const watcher of this.#watchers) watcher.dispose();
    this.#watchers = [];
  }
}
