import type { CodeAction } from 'vscode';
import { CodeActionKind } from 'vscode';
import { repairFrames } from '../session/fix.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { repairFile } from './fix-file.ts';
import { fixAction } from './picture-costs.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';

const RULE = 'tilt';

/** For a frame that leans: level it, with its crop in one step. What it cost in length is told. */
export function levelActions(manifest: OpenManifest, check: FrameCheck): CodeAction[] {
  if (!leans(check)) return [];
  const { frame } = check;
  return [
    fixAction(manifest, `Level this frame: ${plainLine(frame.name, 60)}`, CodeActionKind.QuickFix, async (signal) => {
      const check = await manifest.check(signal);
      const { edits, fixed } = await repairFrames(check, { frame: frame.name, rules: [RULE], signal });
      return { edit: workspaceEdit(manifest.document, edits), fixed };
    }),
  ];
}

/** The same for all frames that lean, offered where one does. */
export function levelAllActions(manifest: OpenManifest, check: FrameCheck): CodeAction[] {
  if (!leans(check)) return [];
  return [
    fixAction(manifest, 'Level all frames that lean in this file', CodeActionKind.QuickFix, (signal) =>
      repairFile(manifest, { rule: RULE, signal }),
    ),
  ];
}

function leans({ frame, findings }: FrameCheck): boolean {
  return frame.final?.value !== true && findings.some(({ rule, allowed }) => rule === RULE && allowed === undefined);
}
