import type { TextDocument } from 'vscode';
import { commands, LanguageStatusSeverity, languages, StatusBarAlignment, window, workspace } from 'vscode';
import { countFindings } from '../session/counts.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { documentInView, isManifest, MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import { plainLine } from './plain-text.ts';
import type { Part } from './part.ts';

/** What the open session comes to, below; and, where the folder is not trusted, that only the text was looked at. */
export function showStatus(manifests: OpenManifests): Part[] {
  const item = window.createStatusBarItem('selvedge.session', StatusBarAlignment.Left, 40);
  item.name = 'Selvedge session';
  item.command = 'workbench.actions.view.problems';
  const show = (): void => {
    const document = manifestInView();
    void commands.executeCommand('setContext', 'selvedge.manifestOpen', document !== undefined);
    const check = document && manifests.opened(document)?.latest;
    if (!check) {
      item.hide();
      return;
    }
    item.text = `$(symbol-ruler) ${summaryOf(check)}`;
    item.tooltip = `${plainLine(check.session.manifest.session?.value ?? 'This session', 80)}: show the findings`;
    item.show();
  };
  show();
  return [item, ...textOnly(), window.onDidChangeActiveTextEditor(show), manifests.onDidCheck(show)];
}

/** The manifest that is edited; while a panel beside it has the focus, the one that is seen. */
function manifestInView(): TextDocument | undefined {
  const document = documentInView();
  return document && isManifest(document) ? document : undefined;
}

function summaryOf(check: SessionCheck): string {
  const { frames, errors, warnings } = countFindings([check]);
  const counted = (number: number, noun: string): string => `${number} ${noun}${number === 1 ? '' : 's'}`;
  if (errors + warnings === 0) return `${counted(frames, 'frame')}, all clean`;
  const found = [errors > 0 && counted(errors, 'error'), warnings > 0 && counted(warnings, 'warning')];
  return `${counted(frames, 'frame')}: ${found.filter((words) => words !== false).join(', ')}`;
}

function textOnly(): Part[] {
  const status = languages.createLanguageStatusItem('selvedge.trust', MANIFEST_FILES);
  const show = (): void => {
    status.text = workspace.isTrusted ? 'Text and photos are checked' : 'Only the text is checked';
    status.detail = workspace.isTrusted ? '' : 'Photos are looked at once the folder is trusted.';
    status.severity = workspace.isTrusted ? LanguageStatusSeverity.Information : LanguageStatusSeverity.Warning;
    status.command = workspace.isTrusted ? undefined : { command: 'workbench.trust.manage', title: 'Trust' };
  };
  status.name = 'Selvedge';
  show();
  return [status, workspace.onDidGrantWorkspaceTrust(show)];
}
