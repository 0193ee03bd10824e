import type { CodeAction } from 'vscode';
import { CodeActionKind } from 'vscode';
import { repairFrames } from '../session/fix.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { repairFile } from './fix-file.ts';
import { fixAction } from './length-costs.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';

const RULE = 'tilt';

/** For a frame that leans: level it, or all that lean, each with its crop in one step. What it cost in length is told. */
export function levelActions(manifest: OpenManifest, { frame, findings }: FrameCheck): CodeAction[] {
  const leans = findings.some(({ rule, allowed }) => rule === RULE && allowed === undefined);
  if (!leans || frame.final?.value === true) return [];
  return [
    fixAction(manifest, `Level this frame: ${plainLine(frame.name, 60)}`, CodeActionKind.QuickFix, async (signal) => {
      const check = await manifest.check(signal);
      const { edits, fixed } = await repairFrames(check, { frame: frame.name, rules: [RULE], signal });
      return { edit: workspaceEdit(manifest.document, edits), fixed };
    }),
    fixAction(manifest, 'Level all frames that lean in this file', CodeActionKind.QuickFix, (signal) =>
      repairFile(manifest, { rule: RULE, signal }),
    ),
  ];
}
