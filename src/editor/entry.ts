import { createRequire } from 'node:module';
import type { Disposable, ExtensionContext, TextDocument } from 'vscode';
import { commands, workspace } from 'vscode';
import type * as Extension from './extension.ts';
import { LateView } from './late-view.ts';
import { isManifest } from './manifest-files.ts';
import type { SessionNode } from './session-tree.ts';

/*
 * What the editor loads when it opens any YAML file. It knows manifests by their names and nothing else; the extension
 * itself is loaded with the first manifest, or with the first command or view that asks for it.
 */

/** The bundle of extension.ts, beside this one. */
const EXTENSION = './editor.cjs';

export function activate(context: ExtensionContext): void {
  const waiting: Disposable[] = [];
  let isLoaded = false;
  const load = (): void => {
    if (isLoaded) return;
    isLoaded = true;
    for (const each of waiting) each.dispose();
    const extension = createRequire(__filename)(EXTENSION) as typeof Extension;
    extension.activate(context, sessions);
  };
  const sessions = new LateView<SessionNode>('selvedge.sessions', load);
  const look = (document: TextDocument): void => {
    if (isManifest(document)) load();
  };
  waiting.push(workspace.onDidOpenTextDocument(look), ...forwardCommands(context, load));
  context.subscriptions.push(sessions, ...waiting);
  const documents = workspace.textDocuments;
  // Without any YAML it was something else of ours that woke it, such as a panel that is opened again.
  const isAwaited = documents.some(isManifest) || !documents.some(({ languageId }) => languageId === 'yaml');
  // Not now: an editor that has just started has other extensions to wake.
  if (isAwaited) setImmediate(load);
}

/** Each command loads the extension, which then has commands of the same names, and is run again. */
function forwardCommands(context: ExtensionContext, load: () => void): Disposable[] {
  return contributed(context).commands.map(({ command }) =>
    commands.registerCommand(command, (...given: unknown[]) => {
      load();
      return commands.executeCommand(command, ...given);
    }),
  );
}

interface Contributed {
  readonly commands: readonly { readonly command: string }[];
}

function contributed({ extension }: ExtensionContext): Contributed {
  return (extension.packageJSON as { contributes: Contributed }).contributes;
}
