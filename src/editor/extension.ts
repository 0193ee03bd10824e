import { join } from 'node:path';
import type { ExtensionContext } from 'vscode';
import { commands, window } from 'vscode';
import { carryCrops } from './carry-crop.ts';
import { offerActions } from './code-actions.ts';
import { complete } from './completion.ts';
import { showDiagnostics } from './diagnostics.ts';
import { fixEverywhere } from './fix-everywhere.ts';
import { fixFiles } from './fix-file.ts';
import { goToFrames } from './go-to-frame.ts';
import { showHovers } from './hover.ts';
import { showHints } from './inlay-hints.ts';
import type { LateView } from './late-view.ts';
import { createLog } from './log.ts';
import { tellPictureCosts } from './picture-costs.ts';
import { offerMat } from './mat-commands.ts';
import { measurePeople } from './measure.ts';
import { offerMore } from './more-actions.ts';
import { beginSessions } from './new-session.ts';
import { OpenManifests } from './open-manifests.ts';
import { offerSheet } from './open-sheets.ts';
import { linkPhotos } from './photo-links.ts';
import { PhotoRoom } from './photo-room.ts';
import { reviewChanges } from './review-changes.ts';
import { RulePages } from './rule-pages.ts';
import { checkSaves } from './save-check.ts';
import { selectReasons } from './select-reason.ts';
import type { SessionNode } from './session-tree.ts';
import { showSessions } from './sessions-view.ts';
import { showNotes } from './session-notes.ts';
import { showStatus } from './status.ts';
import { outline } from './symbols.ts';

/** Only wiring: each feature has its own file. Called by entry.ts with the first manifest, command or view. */
export function activate(context: ExtensionContext, sessions: LateView<SessionNode>): void {
  const began = performance.now();
  const log = createLog();
  const room = new PhotoRoom(join(context.extensionPath, 'dist'), log, (message) => {
    void window.showWarningMessage(message);
  });
  const pages = new RulePages(context.extensionUri);
  const manifests = new OpenManifests(room, log);
  context.subscriptions.push(
    log,
    room,
    manifests,
    ...showDiagnostics(manifests, pages),
    offerActions(manifests),
    offerMore(),
    selectReasons(manifests),
    tellPictureCosts(log),
    fixFiles(manifests, log),
    fixEverywhere(room, log),
    carryCrops(manifests, log),
    goToFrames(manifests, log),
    ...showNotes(manifests),
    ...reviewChanges({ manifests, room, log, extensionFolder: context.extensionUri }),
    beginSessions(room, log),
    measurePeople(manifests, room, log),
    checkSaves(log),
    showHovers(manifests, room, log),
    outline(manifests),
    linkPhotos(manifests),
    complete(manifests),
    ...showHints(manifests),
    ...showStatus(manifests),
    ...offerMat({ manifests, room, log, extensionFolder: context.extensionUri }, context.globalState),
    ...showSessions(manifests, log, sessions),
    ...offerSheet({ manifests, room, log, extensionFolder: context.extensionUri }),
    commands.registerCommand('selvedge.showLog', () => {
      log.show();
    }),
  );
  log.info(`active after ${Math.round(performance.now() - began)} ms`);
}
