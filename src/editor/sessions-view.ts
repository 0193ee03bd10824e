import { commands, Uri, window, workspace } from 'vscode';
import type { LateView } from './late-view.ts';
import type { Log } from './log.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';
import { revealFrame } from './reveal-frame.ts';
import { SessionList } from './session-list.ts';
import { SessionTree, type SessionNode } from './session-tree.ts';

/** What can be done with a session from its line; each works on the manifest that is shown. */
const ON_SHOWN = [
  ['selvedge.sessions.openMat', 'selvedge.cuttingMat'],
  ['selvedge.sessions.fix', 'selvedge.fixFile'],
] as const;
/** These take the manifest's address. */
const ON_ADDRESS = [
  ['selvedge.sessions.openSheet', 'selvedge.contactSheet'],
  ['selvedge.sessions.measure', 'selvedge.measure'],
] as const;

/** The tree of all sessions in the workspace. */
export function showSessions(manifests: OpenManifests, log: Log, sessions: LateView<SessionNode>): Part[] {
  const list = new SessionList(manifests, log);
  const tree = new SessionTree(list);
  const { view } = sessions;
  list.isSeen = view.visible;
  return [
    list,
    tree,
    sessions.fill(tree),
    view.onDidChangeVisibility(({ visible }) => {
      list.isSeen = visible;
    }),
    commands.registerCommand('selvedge.sessions.goToFrame', (uri: unknown, index: unknown, name: unknown) =>
      goToFrame(manifests, uri, index, name),
    ),
    ...ON_SHOWN.map(([command, target]) =>
      commands.registerCommand(command, async (node: unknown) => {
        const uri = uriOf(node);
        if (!uri) return;
        await window.showTextDocument(uri);
        await commands.executeCommand(target);
      }),
    ),
    ...ON_ADDRESS.map(([command, target]) =>
      commands.registerCommand(command, async (node: unknown) => {
        const uri = uriOf(node);
        if (!uri) return;
        // The text is what a sheet and a measured photo lead to.
        await window.showTextDocument(uri, { preserveFocus: true });
        await commands.executeCommand(target, uri);
      }),
    ),
  ];
}

/** Goes to a frame where it stands now: the line of the tree may be of an older text. */
async function goToFrame(manifests: OpenManifests, uri: unknown, index: unknown, name: unknown): Promise<void> {
  if (!(uri instanceof Uri)) return;
  const document = await workspace.openTextDocument(uri);
  const frames = (await manifests.of(document))?.session.manifest.frames ?? [];
  const frame = frames.find((each) => each.name === name) ?? frames.find((each) => each.index === index);
  if (frame) await revealFrame(document, frame, { takesFocus: true });
  else await window.showTextDocument(document);
}

function uriOf(node: unknown): Uri | undefined {
  if (typeof node !== 'object' || node === null || !('uri' in node)) return undefined;
  return node.uri instanceof Uri ? node.uri : undefined;
}
