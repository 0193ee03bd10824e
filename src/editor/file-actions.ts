import type { CodeAction, Diagnostic } from 'vscode';
import { CodeActionKind, DiagnosticSeverity } from 'vscode';
import { RULES } from '../rules/index.ts';
import { SOURCE } from './diagnostics.ts';
import { everywhereActions } from './fix-everywhere.ts';
import { repairFile } from './fix-file.ts';
import type { LazyAction } from './lazy-action.ts';
import { fixAction } from './picture-costs.ts';
import type { OpenManifest } from './open-manifest.ts';

/** Fix on save asks for this kind. */
export const FIX_ALL = CodeActionKind.SourceFixAll.append('selvedge');

const TITLE = 'Fix all frames in this file';

/** Fix on save: the command line's `fix` gives the same crops. */
export function fixAllOnSave(manifest: OpenManifest): CodeAction {
  return fixing(manifest, TITLE, FIX_ALL);
}

/** The same where something is found that can be fixed. */
export function fixAllActions(manifest: OpenManifest, asked: readonly Diagnostic[]): CodeAction[] {
  return rulesOf(asked).length > 0 ? [fixing(manifest, TITLE, CodeActionKind.QuickFix)] : [];
}

/** What a rule says everywhere, in this file or in all sessions. */
export function everyRuleActions(manifest: OpenManifest, asked: readonly Diagnostic[]): CodeAction[] {
  const rules = rulesOf(asked);
  return [
    ...rules.map((rule) => fixing(manifest, `Fix every ${rule} in this file`, CodeActionKind.QuickFix, rule)),
    ...everywhereActions(rules),
  ];
}

/** The rules of errors and warnings, each once. */
function rulesOf(asked: readonly Diagnostic[]): string[] {
  const rules = asked
    .filter(({ source, severity }) => source === SOURCE && severity <= DiagnosticSeverity.Warning)
    .map(({ code }) => String(typeof code === 'object' ? code.value : code))
    .filter((rule) => RULES.some(({ id }) => id === rule));
  return [...new Set(rules)];
}

function fixing(manifest: OpenManifest, title: string, kind: CodeActionKind, rule?: string): LazyAction {
  return fixAction(manifest, title, kind, (signal) => repairFile(manifest, { rule, signal }));
}
