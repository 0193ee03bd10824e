import type { CodeAction } from 'vscode';
import { CodeActionKind } from 'vscode';
import { repairFrames } from '../session/fix.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { repairFile } from './fix-file.ts';
import { LazyAction } from './lazy-action.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';

const RULE = 'tilt';

/** For a frame that leans: level it, or all that lean, each with its crop in one step. */
export function levelActions(manifest: OpenManifest, { frame, findings }: FrameCheck): CodeAction[] {
  const leans = findings.some(({ rule, allowed }) => rule === RULE && allowed === undefined);
  if (!leans || frame.final?.value === true) return [];
  return [
    new LazyAction(`Level this frame: ${plainLine(frame.name, 60)}`, CodeActionKind.QuickFix, async (signal) => {
      const { edits } = await repairFrames(await manifest.check(signal), { frame: frame.name, rules: [RULE], signal });
      return workspaceEdit(manifest.document, edits);
    }),
    new LazyAction('Level all frames that lean in this file', CodeActionKind.QuickFix, async (signal) => {
      return (await repairFile(manifest, { rule: RULE, signal })).edit;
    }),
  ];
}
