import { commands, Uri, window, workspace } from 'vscode';
import { leftOutLines } from '../report/init.ts';
import { count } from '../report/text.ts';
import type { InitReport } from '../session/init.ts';
import { messageOf, type Log } from './log.ts';
import type { Part } from './part.ts';
import type { PhotoRoom } from './photo-room.ts';
import { plainMessage } from './plain-text.ts';

const MEASURE = 'Measure the People in the Photos';

/** The command: a manifest for a folder of pictures, as the command line's `init` writes it, opened for what comes next. */
export function beginSessions(room: PhotoRoom, log: Log): Part {
  return commands.registerCommand('selvedge.newSession', async (given: unknown) => {
    if (!workspace.isTrusted) {
      void window.showWarningMessage('A session is begun only in a folder that you trust.');
      return;
    }
    const folder = given instanceof Uri ? given : await askFolder();
    if (folder === undefined) return;
    try {
      if (folder.scheme !== 'file') throw new Error('A session needs a folder on a disk that this extension can read.');
      const report = await room.ask('init', { folder: folder.fsPath });
      const manifest = Uri.file(report.path);
      await window.showTextDocument(manifest, { preview: false });
      void offerMeasuring(manifest, tell(report, log));
    } catch (error) {
      log.error(messageOf(error));
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  });
}

async function askFolder(): Promise<Uri | undefined> {
  const beginning = workspace.workspaceFolders?.[0]?.uri;
  const chosen = await window.showOpenDialog({
    title: 'The folder with the photos of the session',
    openLabel: 'Begin a Session Here',
    canSelectFiles: false,
    canSelectFolders: true,
    ...(beginning && { defaultUri: beginning }),
  });
  return chosen?.[0];
}

/** How many frames there are, and how much was left out; the log has it in full. */
function tell(report: InitReport, log: Log): string {
  const leftOut = leftOutLines(report);
  log.info(`${report.path}: ${count(report.pictures.length, 'frame')}`);
  for (const line of leftOut) log.info(`left out: ${line}`);
  const frames = `${count(report.pictures.length, 'frame')}, one for each photo.`;
  return leftOut.length === 0 ? frames : `${frames} Left out: ${leftOut.join('; ')}.`;
}

async function offerMeasuring(manifest: Uri, told: string): Promise<void> {
  const chosen = await window.showInformationMessage(plainMessage(told), MEASURE);
  if (chosen === MEASURE) await commands.executeCommand('selvedge.measure', manifest);
}
