import type { CodeAction } from 'vscode';
import { CodeAction as Action, CodeActionKind, commands, ProgressLocation, window, workspace } from 'vscode';
import { signalOf } from './cancelling.ts';
import { LazyAction } from './lazy-action.ts';
import { messageOf } from './log.ts';
import type { Part } from './part.ts';
import { plainLabel, plainMessage } from './plain-text.ts';

/** Of our own, and not in the list of commands: the lamp's menu runs it. */
const COMMAND = 'selvedge.moreActions';
const MORE = 'More …';

/** One entry of the lamp's menu for what is rarely wanted: it opens a list of that. None for nothing. */
export function moreActions(rare: readonly CodeAction[]): CodeAction[] {
  if (rare.length === 0) return [];
  const more = new Action(MORE, CodeActionKind.QuickFix);
  more.command = { command: COMMAND, title: MORE, arguments: [rare] };
  return [more];
}

/** The command: a list of actions; the one that is chosen is done as the lamp's menu would do it. */
export function offerMore(): Part {
  return commands.registerCommand(COMMAND, async (actions: readonly CodeAction[]) => {
    const items = actions.map((action) => ({ label: plainLabel(action.title, 120), action }));
    const chosen = await window.showQuickPick(items, { title: 'More that can be done here' });
    if (!chosen) return;
    try {
      await perform(chosen.action);
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') return;
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  });
}

async function perform(action: CodeAction): Promise<void> {
  const edit = action instanceof LazyAction ? await workOut(action) : action.edit;
  if (edit && !(await workspace.applyEdit(edit))) {
    throw new Error('The editor did not take the edit, and nothing was changed.');
  }
  const { command } = action;
  if (command) await commands.executeCommand(command.command, ...((command.arguments ?? []) as unknown[]));
}

async function workOut({ title, make }: LazyAction): ReturnType<LazyAction['make']> {
  return window.withProgress({ location: ProgressLocation.Notification, title, cancellable: true }, (_, token) =>
    make(signalOf(token)),
  );
}
