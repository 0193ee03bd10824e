import type { CancellationToken, CodeActionContext, Range, TextDocument } from 'vscode';
import { type CodeAction, CodeActionKind, CodeActionTriggerKind, languages, type CodeActionProvider } from 'vscode';
import { signalOf } from './cancelling.ts';
import { everyRuleActions, FIX_ALL, fixAllActions, fixAllOnSave } from './file-actions.ts';
import { askedAbout, findingActions } from './finding-actions.ts';
import { fixFrameActions, frameActions } from './frame-actions.ts';
import { LazyAction } from './lazy-action.ts';
import { levelActions, levelAllActions } from './level-actions.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import { moreActions } from './more-actions.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';

/** The frames that a stretch touches; of a place before a line's first frame, such as in front of its dash, that frame. */
function framesAskedAbout(manifest: OpenManifest, document: TextDocument, range: Range): FrameCheck[] {
  const [start, end] = [document.offsetAt(range.start), document.offsetAt(range.end)];
  const touched = manifest.framesIn(start, end);
  if (touched.length > 0 || !range.isEmpty) return touched;
  return manifest.framesIn(start, document.offsetAt(document.lineAt(range.end).range.end)).slice(0, 1);
}

/** What can be done about a stretch of the manifest: what mends its findings, the frame, the file; then what else is often wanted. */
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
      return [fixAllOnSave(manifest)].filter(isWanted);
    }
    const checks = framesAskedAbout(manifest, document, range);
    const asked = askedAbout(context.diagnostics, range);
    const { mending, allowing } = findingActions(manifest, checks, asked);
    // The lamp beside the line only needs to know that there is something.
    const isInvoked = context.triggerKind === CodeActionTriggerKind.Invoke;
    const check = isInvoked && checks.length === 1 ? checks[0] : undefined;
    const larger = [...(check ? fixFrameActions(manifest, check) : []), ...fixAllActions(manifest, asked)];
    // The editor puts what names a finding before what names none.
    if (asked.length > 0) for (const action of larger) action.diagnostics = [...asked];
    const ofFrame = check && frameActions(manifest, check);
    const rare = [
      ...(check ? levelAllActions(manifest, check) : []),
      ...everyRuleActions(manifest, asked),
      ...(ofFrame?.making ?? []),
    ];
    // Whoever asks for one kind of action gets each by itself.
    const isMenu = context.only === undefined || context.only.value === CodeActionKind.QuickFix.value;
    return [
      ...mending,
      ...larger,
      ...allowing,
      ...(check ? levelActions(manifest, check) : []),
      ...(ofFrame?.changing ?? []),
      ...(isMenu ? moreActions(rare) : rare),
    ].filter(isWanted);
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
