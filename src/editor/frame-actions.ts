import type { CodeAction } from 'vscode';
import { CodeActionKind } from 'vscode';
import { editFrame, type FrameChange } from '../manifest/edit.ts';
import { LENGTH_WORDS } from '../people/lengths.ts';
import { repairFrames } from '../session/fix.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { lengthSteps, type LengthStep } from '../session/length-step.ts';
import { isPressing } from '../session/located-finding.ts';
import { LazyAction } from './lazy-action.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';

/** What can be done with one frame: repair it, go along the ladder, approve it. */
export function frameActions(manifest: OpenManifest, check: FrameCheck): CodeAction[] {
  const { frame, findings } = check;
  const name = plainLine(frame.name, 60);
  if (frame.final?.value === true) {
    return [changing(manifest, frame.index, `Take back the approval of ${name}`, { final: false })];
  }
  const fix = new LazyAction(`Fix this frame: ${name}`, CodeActionKind.QuickFix, async (signal) => {
    const { edits } = await repairFrames(await manifest.check(signal), { frame: frame.name, signal });
    return workspaceEdit(manifest.document, edits);
  });
  const { tighter, wider } = lengthSteps(manifest.session, frame);
  const step = (words: string, { length, crop }: LengthStep): CodeAction =>
    changing(manifest, frame.index, `${words} ${LENGTH_WORDS[length]}`, { crop, ...(frame.length && { length }) });
  return [
    ...(findings.some(isPressing) ? [fix] : []),
    ...(tighter ? [step('One length closer:', tighter)] : []),
    ...(wider ? [step('One length wider:', wider)] : []),
    changing(manifest, frame.index, `Approve ${name} as it is`, { final: true }),
  ];
}

function changing(manifest: OpenManifest, index: number, title: string, change: FrameChange): LazyAction {
  return new LazyAction(title, CodeActionKind.RefactorRewrite, () =>
    Promise.resolve(workspaceEdit(manifest.document, editFrame(manifest.session.manifest, index, change))),
  );
}
