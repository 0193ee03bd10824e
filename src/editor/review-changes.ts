import { Uri, commands, ProgressLocation, window, workspace } from 'vscode';
import type { Progress } from 'vscode';
import { requireRepository } from '../session/review/past-session.ts';
import { reviewSince, type Review } from '../session/review/review.ts';
import type { Session } from '../session/session.ts';
import { signalOf } from './cancelling.ts';
import { gitInterface, knownRepository } from './git-extension.ts';
import { messageOf } from './log.ts';
import { lookingAtPhotos } from './look-at-photos.ts';
import { isManifest } from './manifest-files.ts';
import type { OpenManifest } from './open-manifest.ts';
import { pickRevision } from './pick-revision.ts';
import { plainMessage } from './plain-text.ts';
import { ReviewPanel, type ReviewTools } from './review-panel.ts';
import type { Part } from './part.ts';

type Report = Progress<{ readonly message?: string; readonly increment?: number }>;

/**
 * The command: what became of the open session's crops since a git revision that is asked for, on the page that the command
 * line's review writes. The text counts as it stands in the editor. There is one page for each session.
 */
export function reviewChanges(tools: ReviewTools): Part[] {
  const pages = new Map<string, ReviewPanel>();

  async function review(manifest: OpenManifest, revision: string): Promise<void> {
    await window.withProgress(
      { location: ProgressLocation.Notification, title: 'Comparing the crops', cancellable: true },
      async (progress, token) => {
        const signal = signalOf(token);
        const isUnsaved = manifest.document.isDirty;
        const found = await reviewed(manifest.session, revision, tools, signal);
        const page = pageOf(manifest.document.uri);
        try {
          await page.show(found, isUnsaved, { signal, onProgress: telling(progress) });
          page.reveal();
        } finally {
          // Whoever thinks better of it is not left with an empty page.
          if (page.isEmpty) page.dispose();
        }
      },
    );
  }

  function pageOf(uri: Uri): ReviewPanel {
    const key = uri.toString();
    const known = pages.get(key);
    if (known) return known;
    const page = new ReviewPanel(uri, tools, (revision) => void commands.executeCommand(COMMAND, uri, revision));
    pages.set(key, page);
    page.onDidDispose(() => {
      pages.delete(key);
      page.dispose();
    });
    return page;
  }

  return [
    commands.registerCommand(COMMAND, async (given: unknown, since: unknown) => {
      try {
        const manifest = await manifestFor(given, tools);
        if (!manifest) return;
        if (!workspace.isTrusted) {
          void window.showWarningMessage('Git is run, and photos are looked at, only in a folder that you trust.');
          return;
        }
        const { uri } = manifest.document;
        const git = await gitInterface(uri);
        await requireRepository(manifest.session.path);
        const revision = typeof since === 'string' ? since : await pickRevision(knownRepository(git, uri), tools.log);
        if (revision !== undefined) await review(manifest, revision);
      } catch (error) {
        if (error instanceof Error && error.name === 'AbortError') return;
        tools.log.error(messageOf(error));
        void window.showErrorMessage(plainMessage(messageOf(error)));
      }
    }),
    {
      dispose: () => {
        for (const page of pages.values()) page.dispose();
      },
    },
  ];
}

const COMMAND = 'selvedge.review';

async function manifestFor(given: unknown, { manifests }: ReviewTools): Promise<OpenManifest | undefined> {
  if (given instanceof Uri) return manifests.of(await workspace.openTextDocument(given));
  const active = window.activeTextEditor?.document;
  const seen = window.visibleTextEditors.map(({ document }) => document);
  const document = [...(active ? [active] : []), ...seen].find(isManifest);
  return document && manifests.of(document);
}

/** Git is asked first: a revision that is none is told before any photo is looked at. */
function reviewed(session: Session, revision: string, { room }: ReviewTools, signal: AbortSignal): Promise<Review> {
  const look = lookingAtPhotos(room);
  return reviewSince(session, revision, {
    signal,
    lookAtPhotos: async (now, stop = signal) => {
      const photos = new Set(now.manifest.frames.map(({ photo }) => photo.value));
      return new Map(await look(now, [...photos], stop));
    },
  });
}

function telling(progress: Report): (now: { readonly done: number; readonly total: number }) => void {
  let before = 0;
  return ({ done, total }) => {
    progress.report({ message: `${done} of ${total} frames`, increment: ((done - before) / total) * 100 });
    before = done;
  };
}
