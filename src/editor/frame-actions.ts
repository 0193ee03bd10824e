import { CodeAction, CodeActionKind } from 'vscode';
import type { FrameChange } from '../manifest/edit.ts';
import type { Frame } from '../manifest/manifest.ts';
import { LENGTH_WORDS } from '../people/lengths.ts';
import { framesAfter } from '../session/carry.ts';
import { repairFrames } from '../session/fix.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { addLength, lengthSteps, type LengthStep } from '../session/length-step.ts';
import { isPressing } from '../session/located-finding.ts';
import { CARRY } from './carry-crop.ts';
import { frameEdit } from './frame-edit.ts';
import { LazyAction } from './lazy-action.ts';
import { fixAction } from './picture-costs.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';

/** The best crop for one frame in which something is found that presses. */
export function fixFrameActions(manifest: OpenManifest, { frame, findings }: FrameCheck): CodeAction[] {
  if (frame.final?.value === true || !findings.some(isPressing)) return [];
  const title = `Fix this frame: ${plainLine(frame.name, 60)}`;
  return [
    fixAction(manifest, title, CodeActionKind.QuickFix, async (signal) => {
      const { edits, fixed } = await repairFrames(await manifest.check(signal), { frame: frame.name, signal });
      return { edit: workspaceEdit(manifest.document, edits), fixed };
    }),
  ];
}

/** What else can be done with one frame. */
export interface FrameActions {
  /** It goes along the ladder, or is approved. */
  readonly changing: readonly CodeAction[];
  /** Other frames are made from it. */
  readonly making: readonly CodeAction[];
}

export function frameActions(manifest: OpenManifest, { frame }: FrameCheck): FrameActions {
  const name = plainLine(frame.name, 60);
  const { tighter, wider, others } = lengthSteps(manifest.session, frame);
  const making = [
    ...others.map((step) => adding(manifest, frame, step)),
    ...carrying(manifest, frame, others.length > 0),
  ];
  if (frame.final?.value === true) {
    return {
      changing: [changing(manifest, frame.index, `Take back the approval of ${name}`, { final: false })],
      making,
    };
  }
  const step = (words: string, { length, crop }: LengthStep): CodeAction =>
    changing(manifest, frame.index, `${words} ${LENGTH_WORDS[length]}`, { crop, ...(frame.length && { length }) });
  const own = [
    ...(tighter ? [step('One length closer:', tighter)] : []),
    ...(wider ? [step('One length wider:', wider)] : []),
    changing(manifest, frame.index, `Approve ${name} as it is`, { final: true }),
  ];
  return { changing: own, making };
}

/** The same photo once more, at another length, right below. */
function adding({ document, session }: OpenManifest, frame: Frame, step: LengthStep): LazyAction {
  const title = `Add ${plainLine(frame.photo.value, 60)} once more, as ${LENGTH_WORDS[step.length]}`;
  return new LazyAction(title, CodeActionKind.RefactorRewrite, () =>
    Promise.resolve(workspaceEdit(document, addLength(session, frame, step))),
  );
}

function carrying({ document, session }: OpenManifest, frame: Frame, hasBody: boolean): CodeAction[] {
  if (!hasBody || framesAfter(session, frame).length === 0) return [];
  const action = new CodeAction('Carry this crop to the next frames …', CodeActionKind.RefactorRewrite);
  action.command = { command: CARRY, title: action.title, arguments: [document.uri, frame.index] };
  return [action];
}

function changing(manifest: OpenManifest, index: number, title: string, change: FrameChange): LazyAction {
  return new LazyAction(title, CodeActionKind.RefactorRewrite, () =>
    Promise.resolve(frameEdit(manifest, { index }, change)),
  );
}
