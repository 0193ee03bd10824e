import { commands, EventEmitter, ProgressLocation, Uri, window, workspace } from 'vscode';
import { formatNotes } from '../report/notes.ts';
import { notesOf } from '../session/notes/notes.ts';
import { signalOf } from './cancelling.ts';
import { messageOf } from './log.ts';
import { documentInView } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import { plainMessage } from './plain-text.ts';
import type { Part } from './part.ts';

const SCHEME = 'selvedge-notes';

/** The command: what the open session teaches for the next one, in the editor's own Markdown preview. Nothing is written. */
export function showNotes(manifests: OpenManifests): Part[] {
  const texts = new Map<string, string>();
  const changed = new EventEmitter<Uri>();
  return [
    changed,
    workspace.registerTextDocumentContentProvider(SCHEME, {
      onDidChange: changed.event,
      provideTextDocumentContent: (uri) => texts.get(uri.toString()) ?? '',
    }),
    workspace.onDidCloseTextDocument(({ uri }) => texts.delete(uri.toString())),
    commands.registerCommand('selvedge.notes', async () => {
      const document = documentInView();
      const manifest = document && (await manifests.of(document));
      if (!manifest) return;
      try {
        const text = await window.withProgress(
          { location: ProgressLocation.Notification, title: 'Looking through the session', cancellable: true },
          async (_, token) => formatNotes(await notesOf(manifest.session, signalOf(token))),
        );
        const uri = Uri.from({
          scheme: SCHEME,
          path: '/Notes for the next session.md',
          query: document.uri.toString(),
        });
        texts.set(uri.toString(), text);
        changed.fire(uri);
        await commands.executeCommand('markdown.showPreview', uri);
      } catch (error) {
        if (error instanceof Error && error.name === 'AbortError') return;
        void window.showErrorMessage(plainMessage(messageOf(error)));
      }
    }),
  ];
}
