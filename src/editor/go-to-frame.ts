import type { QuickPickItem, Uri } from 'vscode';
import { commands, QuickPickItemKind, Range, Selection, TextEditorRevealType, window, workspace } from 'vscode';
import type { Frame, Manifest } from '../manifest/manifest.ts';
import { LineIndex } from '../manifest/position.ts';
import { parseManifest } from '../manifest/parse.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';
import { isManifest } from './manifest-files.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifests } from './open-manifests.ts';
import { plainLabel, plainMessage } from './plain-text.ts';
import type { Part } from './part.ts';
import { manifestText, manifestUris, nameOf } from './workspace-manifests.ts';

interface FrameItem extends QuickPickItem {
  /** Absent for the entry that leads to all sessions. */
  readonly place?: { readonly uri: Uri; readonly manifest: Manifest; readonly frame: Frame };
}

const ALL: FrameItem = { label: 'Frames of all sessions …', alwaysShow: true };

/** The command: a list of the open session's frames by name, or of all sessions; the cursor goes to the one chosen. */
export function goToFrames(manifests: OpenManifests, log: Log): Part {
  return commands.registerCommand('selvedge.goToFrame', async () => {
    try {
      const open = window.visibleTextEditors.map(({ document }) => document).filter(isManifest);
      const document = open.find((each) => each === window.activeTextEditor?.document) ?? open[0];
      const manifest = document && (await manifests.of(document));
      const own = manifest && [...items(document.uri, manifest.session.manifest), ALL];
      const chosen = own && (await pick(own));
      if (own && !chosen) return;
      const place = chosen?.place ?? (await pick(await everywhere(log)))?.place;
      if (place) await show(place);
    } catch (error) {
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  });
}

async function pick(choices: readonly FrameItem[]): Promise<FrameItem | undefined> {
  return window.showQuickPick(choices, {
    title: 'Go to a frame',
    placeHolder: 'Name of a photo',
    matchOnDescription: true,
  });
}

async function everywhere(log: Log): Promise<FrameItem[]> {
  const found: FrameItem[] = [];
  for (const uri of await manifestUris()) {
    try {
      const manifest = parseManifest(await manifestText(uri), RULE_CATALOGUE);
      found.push({ label: plainLabel(nameOf(uri), 120), kind: QuickPickItemKind.Separator }, ...items(uri, manifest));
    } catch (error) {
      log.warn(`${uri.fsPath}: ${messageOf(error)}`);
    }
  }
  return found;
}

function items(uri: Uri, manifest: Manifest): FrameItem[] {
  return manifest.frames.map((frame) => {
    const words = [frame.length?.value, frame.final?.value === true && 'approved', frame.note?.value];
    const description = words.filter((word) => typeof word === 'string').join(', ');
    return {
      label: plainLabel(frame.name, 120),
      description: plainLabel(description, 120),
      place: { uri, manifest, frame },
    };
  });
}

async function show({ uri, manifest, frame }: NonNullable<FrameItem['place']>): Promise<void> {
  const editor = await window.showTextDocument(await workspace.openTextDocument(uri));
  const { line, column } = new LineIndex(manifest.text).positionAt(frame.photo.range.start);
  const range = editor.document.validateRange(new Range(line - 1, column - 1, line - 1, column - 1));
  editor.selection = new Selection(range.start, range.start);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
