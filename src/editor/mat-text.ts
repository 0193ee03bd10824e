import type { TextDocument } from 'vscode';
import { commands, Selection, ViewColumn, window, workspace } from 'vscode';
import { roundDegrees } from '../geometry/level.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import type { FrameChange } from '../manifest/edit.ts';
import type { Frame } from '../manifest/manifest.ts';
import type { Direction } from '../panel/messages.ts';
import { allowKeyOf } from '../rules/finding.ts';
import { cutFor } from '../session/cut-for.ts';
import { degreesOf, measuredScene } from '../session/frame-scene.ts';
import { isPressing } from '../session/located-finding.ts';
import { peopleLeftOut } from '../session/left-out.ts';
import { lengthChange, type LengthChange } from '../session/length-change.ts';
import { editorOf } from './frame-at-cursor.ts';
import { canAllow, frameEdit } from './frame-edit.ts';
import type { OpenManifest } from './open-manifest.ts';
import { rangeIn } from './places.ts';

/** What came of an edit from the mat. */
export interface Written {
  /** Why nothing was written, when nothing was. */
  readonly why?: string;
  /** The lengths that the crop showed and shows, when they differ. */
  readonly length?: LengthChange | undefined;
  /** People who were in the crop, and are not any more. */
  readonly leftOut?: readonly number[];
}

/** Writes what was let go or chosen on the mat: crop and turning are one edit of the text. */
export async function writeCrop(
  manifest: OpenManifest,
  frame: Frame,
  crop: Rectangle,
  degrees: number,
): Promise<Written> {
  const straighten = roundDegrees(degrees);
  const scene = measuredScene(manifest.session, frame);
  const length = scene && lengthChange(scene, crop, straighten);
  const leftOut = scene ? peopleLeftOut(scene, crop, straighten) : [];
  const change = { crop, ...(straighten !== degreesOf(frame) && { straighten }) };
  return { ...(await writeChange(manifest, frame, change)), length, leftOut };
}

/** Writes what was let go or chosen as the frame's own crop for an output; the main crop stays as it is. */
export async function writeOutputCrop(
  manifest: OpenManifest,
  frame: Frame,
  output: string,
  crop: Rectangle,
): Promise<Written> {
  if (!manifest.session.manifest.deliver.has(output)) return { why: 'This output is not in the text any more' };
  return writeChange(manifest, frame, { deliver: { [output]: crop } });
}

/** Writes another change of a frame as one edit; an approved frame takes none but that of its approval. */
export async function writeChange(manifest: OpenManifest, frame: Frame, change: FrameChange): Promise<Written> {
  if (frame.final?.value === true && change.final === undefined) return { why: 'This frame was approved meanwhile' };
  const edit = frameEdit(manifest, frame, change);
  const isDone = edit.size === 0 || (await workspace.applyEdit(edit));
  return isDone ? {} : { why: 'The editor did not take the edit' };
}

/** Allows what is found in the frame, and nothing else: the page names no key of its own. */
export async function writeAllowance(
  manifest: OpenManifest,
  frame: Frame,
  key: string,
  reason: string,
): Promise<Written> {
  const findings = manifest.frameOf(frame.index)?.findings ?? [];
  const isThere = findings.some((finding) => allowKeyOf(finding) === key && canAllow(frame, finding.rule));
  if (!isThere) return { why: 'That is not found in this frame any more' };
  return writeChange(manifest, frame, { allow: { [key]: reason } });
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

/** The frame, though others may have come or gone before it; the one in its place when it was given another photo. */
export function sameFrame(frames: readonly Frame[], { index, name }: Pick<Frame, 'index' | 'name'>): Frame | undefined {
  return frames.find((frame) => frame.name === name) ?? frames.find((frame) => frame.index === index);
}

/**
 * The frame before or after another one, or the next that has findings, from the beginning again if need be.
 * @param output only findings of its crops count
 */
export function frameTowards(
  manifest: OpenManifest,
  from: Pick<Frame, 'index'> | undefined,
  to: Direction,
  output?: string,
): Frame | undefined {
  const { frames } = manifest.session.manifest;
  const here = frames.findIndex(({ index }) => index === from?.index);
  if (to === 'previous') return frames[here - 1];
  if (to === 'next') return frames[here + 1];
  const onward = [...frames.slice(here + 1), ...frames.slice(0, Math.max(0, here))];
  return onward.find(({ index }) => {
    const check = manifest.frameOf(index);
    if (!check) return false;
    return output === undefined
      ? check.findings.some(isPressing)
      : cutFor(check, output).findings.some(({ severity }) => severity !== 'info');
  });
}
