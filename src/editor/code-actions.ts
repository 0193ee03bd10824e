import type { CancellationToken, CodeActionContext, Range, TextDocument } from 'vscode';
import { type CodeAction, CodeActionKind, CodeActionTriggerKind, languages, type CodeActionProvider } from 'vscode';
import { signalOf } from './cancelling.ts';
import { fileActions, FIX_ALL } from './file-actions.ts';
import { findingActions } from './finding-actions.ts';
import { frameActions } from './frame-actions.ts';
import { LazyAction } from './lazy-action.ts';
import { levelActions } from './level-actions.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';

/** What can be done about a stretch of the manifest: first about its findings, then its frames, then the file. */
class Actions implements CodeActionProvider {
  readonly #manifests: OpenManifests;

  constructor(manifests: OpenManifests) {
    this.#manifests = manifests;
  }

  async provideCodeActions(
    document: TextDocument,
    range: Range,
    context: CodeActionContext,
    token: CancellationToken,
  ): Promise<CodeAction[]> {
    const manifest = await this.#manifests.of(document);
    if (!manifest || token.isCancellationRequested) return [];
    const isWanted = ({ kind }: CodeAction): boolean =>
      context.only === undefined ? !FIX_ALL.contains(kind!) : context.only.contains(kind!);
    if (context.only && CodeActionKind.Source.contains(context.only)) {
      return fileActions(manifest, []).filter(isWanted);
    }
    const checks = manifest.framesIn(document.offsetAt(range.start), document.offsetAt(range.end));
    const ofFindings = findingActions(manifest, checks, context.diagnostics);
    // The lamp beside the line only needs to know that there is something.
    const isAsked = context.triggerKind === CodeActionTriggerKind.Invoke;
    const ofFrames =
      isAsked && checks.length === 1
        ? [...levelActions(manifest, checks[0]!), ...frameActions(manifest, checks[0]!)]
        : [];
    return [...ofFindings, ...ofFrames, ...fileActions(manifest, context.diagnostics)].filter(isWanted);
  }

  async resolveCodeAction(action: CodeAction, token: CancellationToken): Promise<CodeAction> {
    if (!(action instanceof LazyAction)) return action;
    const edit = await action.make(signalOf(token));
    if (edit) action.edit = edit;
    return action;
  }
}

export function offerActions(manifests: OpenManifests): Part {
  return languages.registerCodeActionsProvider(MANIFEST_FILES, new Actions(manifests), {
    providedCodeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.Refactor, FIX_ALL],
  });
}
