import type { WorkspaceEdit } from 'vscode';
import { editFrame, type FrameChange } from '../manifest/edit.ts';
import type { Frame } from '../manifest/manifest.ts';
import { RULES } from '../rules/index.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';

const OF_CROPS: ReadonlySet<string> = new Set(RULES.map(({ id }) => id));

/** A change of one frame as one edit of the text: lamp and cutting mat both write so. */
export function frameEdit(
  { document, session }: OpenManifest,
  { index }: Pick<Frame, 'index'>,
  change: FrameChange,
): WorkspaceEdit {
  return workspaceEdit(document, editFrame(session.manifest, index, change));
}

/** Whether a frame can allow what a rule says: rules about crops alone, and not where it is approved as it is. */
export function canAllow({ final }: Frame, rule: string): boolean {
  return OF_CROPS.has(rule) && final?.value !== true;
}
