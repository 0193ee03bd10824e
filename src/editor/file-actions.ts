import type { CodeAction, Diagnostic } from 'vscode';
import { CodeActionKind, DiagnosticSeverity } from 'vscode';
import { RULES } from '../rules/index.ts';
import { SOURCE } from './diagnostics.ts';
import { everywhereActions } from './fix-everywhere.ts';
import { repairFile } from './fix-file.ts';
import type { LazyAction } from './lazy-action.ts';
import { fixAction } from './length-costs.ts';
import type { OpenManifest } from './open-manifest.ts';

/** Fix on save asks for this kind. */
export const FIX_ALL = CodeActionKind.SourceFixAll.append('selvedge');

/** What can be done with all frames at once; the command line's `fix` gives the same crops. */
export function fileActions(manifest: OpenManifest, diagnostics: readonly Diagnostic[]): CodeAction[] {
  const rules = new Set(
    diagnostics
      .filter(({ source, severity }) => source === SOURCE && severity <= DiagnosticSeverity.Warning)
      .map(({ code }) => String(typeof code === 'object' ? code.value : code))
      .filter((rule) => RULES.some(({ id }) => id === rule)),
  );
  const title = 'Fix all frames in this file';
  return [
    ...[...rules].map((rule) => fixing(manifest, `Fix every ${rule} in this file`, CodeActionKind.QuickFix, rule)),
    ...(rules.size > 0 ? [fixing(manifest, title, CodeActionKind.QuickFix)] : []),
    ...everywhereActions(rules),
    fixing(manifest, title, FIX_ALL),
  ];
}

function fixing(manifest: OpenManifest, title: string, kind: CodeActionKind, rule?: string): LazyAction {
  return fixAction(manifest, title, kind, (signal) => repairFile(manifest, { rule, signal }));
}
