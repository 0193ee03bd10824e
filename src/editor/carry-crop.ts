import { commands, ProgressLocation, Uri, window, workspace } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import { burstLength, carryToNext, framesAfter, type CarryReport } from '../session/carry.ts';
import { signalOf } from './cancelling.ts';
import { documentInView } from './manifest-files.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import { workspaceEdit } from './places.ts';
import { plainLine, plainMessage } from './plain-text.ts';
import type { Part } from './part.ts';

export const CARRY = 'selvedge.carryCrop';

/** The command: asks to how many frames, carries the crop there by the body, and says which could not take it. */
export function carryCrops(manifests: OpenManifests, log: Log): Part {
  return commands.registerCommand(CARRY, async (uri: unknown, index: unknown) => {
    const document = uri instanceof Uri ? await workspace.openTextDocument(uri) : documentInView();
    const manifest = document && (await manifests.of(document));
    const frame = manifest && (typeof index === 'number' ? manifest.frameOf(index)?.frame : frameAtCursor(manifest));
    if (!manifest || !frame) {
      void window.showInformationMessage('Put the cursor on the frame whose crop is to be carried.');
      return;
    }
    try {
      const count = await askHowMany(manifest, frame);
      if (count !== undefined) await carry(manifest, frame, count, log);
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') return;
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  });
}

function frameAtCursor(manifest: OpenManifest): Frame | undefined {
  const editor = window.activeTextEditor;
  if (editor?.document !== manifest.document) return undefined;
  const offset = manifest.document.offsetAt(editor.selection.active);
  return manifest.framesIn(offset, offset)[0]?.frame;
}

async function askHowMany({ session }: OpenManifest, frame: Frame): Promise<number | undefined> {
  const most = framesAfter(session, frame).length;
  if (most === 0) {
    void window.showInformationMessage('There is no other photo below this frame.');
    return undefined;
  }
  const burst = burstLength(session, frame);
  const alike =
    burst === 0 ? 'The next one does not look like the same burst.' : `The next ${burst} look like the same burst.`;
  const answer = await window.showInputBox({
    title: `Carry the crop of ${plainLine(frame.name, 60)}`,
    prompt: `To how many of the ${most} frames below? ${alike}`,
    value: String(Math.max(1, burst)),
    validateInput: (text) => (isCount(text, most) ? undefined : `A whole number from 1 to ${most}.`),
  });
  return answer === undefined ? undefined : Number(answer);
}

function isCount(text: string, most: number): boolean {
  return /^\s*\d+\s*$/.test(text) && Number(text) >= 1 && Number(text) <= most;
}

async function carry(manifest: OpenManifest, frame: Frame, count: number, log: Log): Promise<void> {
  const { session, document } = manifest;
  const report = await window.withProgress(
    { location: ProgressLocation.Notification, title: 'Carrying the crop', cancellable: true },
    (_, token) => carryToNext(session, frame, count, signalOf(token)),
  );
  if (document.getText() !== session.manifest.text) {
    throw new Error('The text was changed meanwhile, and nothing was carried. Do the same again.');
  }
  if (report.edits.length > 0) await workspace.applyEdit(workspaceEdit(document, report.edits));
  void tell(report, log);
}

async function tell({ taken, left }: CarryReport, log: Log): Promise<void> {
  for (const { frame, reason } of left) log.info(`not carried to ${frame.name}: ${reason}`);
  const changed = taken.filter(({ isSame }) => !isSame).length;
  const done = `${changed} ${changed === 1 ? 'frame has' : 'frames have'} the crop now`;
  const had = taken.length > changed ? `; ${taken.length - changed} had it already` : '';
  const [first] = left;
  const reason = first ? ` ${plainMessage(`${plainLine(first.frame.name, 60)}: ${first.reason}`)}.` : '';
  const others =
    left.length === 0 ? '' : `; ${left.length} ${left.length === 1 ? 'was' : 'were'} left as before.${reason}`;
  const more = left.length > 1 ? ['Show All'] : [];
  const answer = await window.showInformationMessage(`${done}${had}${others === '' ? '.' : others}`, ...more);
  if (answer !== undefined) log.show();
}
