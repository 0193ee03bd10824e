import { commands, ProgressLocation, Uri, window, workspace } from 'vscode';
import type { MeasureReport } from '../session/measure.ts';
import { signalOf } from './cancelling.ts';
import { documentInView } from './manifest-files.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainMessage } from './plain-text.ts';
import type { Part } from './part.ts';

/** Has everybody measured who is not, with progress that can be stopped; what is done by then is kept. */
export function measurePeople(manifests: OpenManifests, room: PhotoRoom, log: Log): Part {
  const underWay = new Set<string>();
  return commands.registerCommand('selvedge.measure', async (uri: unknown) => {
    const document = uri instanceof Uri ? await workspace.openTextDocument(uri) : documentInView();
    const manifest = document && (await manifests.of(document));
    if (!manifest) return;
    if (!workspace.isTrusted) {
      void window.showWarningMessage('Photos are looked at only in a folder that you trust.');
      return;
    }
    const { path } = manifest.session;
    if (underWay.has(path)) return;
    underWay.add(path);
    try {
      tell(await measure(manifest, room), log);
      await manifest.readPeople();
    } catch (error) {
      log.error(messageOf(error));
      void window.showErrorMessage(plainMessage(messageOf(error)));
    } finally {
      underWay.delete(path);
    }
  });
}

async function measure(manifest: OpenManifest, room: PhotoRoom): Promise<MeasureReport> {
  const { path, manifest: read } = manifest.session;
  const { photosFolder } = manifest;
  const question = { path, text: read.text, ...(photosFolder !== undefined && { photosFolder }) };
  return window.withProgress(
    { location: ProgressLocation.Notification, title: 'Measuring people', cancellable: true },
    (progress, token) => {
      let before = 0;
      return room.ask('measure', question, {
        signal: signalOf(token),
        onProgress: ({ done, total }) => {
          const increment = total === 0 ? 0 : ((done - before) / total) * 100;
          before = done;
          progress.report({ message: `${done} of ${total} photos`, increment });
        },
      });
    },
  );
}

function tell({ measured, failed, wasInterrupted }: MeasureReport, log: Log): void {
  for (const { photo, message } of failed) log.warn(`${photo}: ${message}`);
  log.info(`${measured.length} photos measured, ${failed.length} could not be read`);
  const done = `${measured.length} ${measured.length === 1 ? 'photo' : 'photos'} measured`;
  if (failed.length > 0) {
    const first = plainMessage(failed[0]!.message);
    void window.showWarningMessage(`${done}; ${failed.length} could not be: ${first}`);
  } else
    void window.showInformationMessage(
      wasInterrupted ? `${done}, then stopped. The rest can follow later.` : `${done}.`,
    );
}
