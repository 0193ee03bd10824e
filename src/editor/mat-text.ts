import type { TextDocument } from 'vscode';
import { commands, Selection, ViewColumn, window, workspace } from 'vscode';
import { roundDegrees } from '../geometry/level.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import { editFrame } from '../manifest/edit.ts';
import type { Frame } from '../manifest/manifest.ts';
import type { Direction } from '../panel/messages.ts';
import { degreesOf } from '../session/frame-scene.ts';
import { isPressing } from '../session/located-finding.ts';
import { editorOf } from './frame-at-cursor.ts';
import type { OpenManifest } from './open-manifest.ts';
import { rangeIn, workspaceEdit } from './places.ts';

/**
 * Writes what was let go on the mat: crop and turning are one edit of the text.
 * @returns why nothing was written, when nothing was
 */
export async function writeCrop(
  { document, session }: OpenManifest,
  frame: Frame,
  crop: Rectangle,
  degrees: number,
): Promise<string | undefined> {
  if (frame.final?.value === true) return 'This frame was approved meanwhile';
  const straighten = roundDegrees(degrees);
  const change = { crop, ...(straighten !== degreesOf(frame) && { straighten }) };
  const edits = editFrame(session.manifest, frame.index, change);
  const isDone = edits.length === 0 || (await workspace.applyEdit(workspaceEdit(document, edits)));
  return isDone ? undefined : 'The editor did not take the edit';
}

/** One step back or forth in the text, which has the focus then. */
export async function stepThrough(document: TextDocument, command: 'undo' | 'redo'): Promise<void> {
  if (document.isClosed) return;
  const viewColumn = editorOf(document)?.viewColumn ?? ViewColumn.One;
  await window.showTextDocument(document, { viewColumn });
  await commands.executeCommand(command);
}

/** Puts the cursor on a frame. */
export function selectFrame(document: TextDocument, frame: Frame): void {
  const editor = editorOf(document);
  if (!editor) return;
  const place = rangeIn(document, frame.photo.range);
  editor.selection = new Selection(place.start, place.start);
  editor.revealRange(place);
}

/** The frame before or after another one, or the next that has findings, from the beginning again if need be. */
export function frameTowards(
  manifest: OpenManifest,
  from: Pick<Frame, 'index'> | undefined,
  to: Direction,
): Frame | undefined {
  const { frames } = manifest.session.manifest;
  const here = frames.findIndex(({ index }) => index === from?.index);
  if (to === 'previous') return frames[here - 1];
  if (to === 'next') return frames[here + 1];
  const onward = [...frames.slice(here + 1), ...frames.slice(0, Math.max(0, here))];
  return onward.find(({ index }) => manifest.frameOf(index)?.findings.some(isPressing));
}
