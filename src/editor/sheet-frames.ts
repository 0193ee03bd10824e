import { createHash } from 'node:crypto';
import type { Rectangle, Size } from '../geometry/shapes.ts';
import type { SheetFinding, SheetFrame } from '../panel/sheet-messages.ts';
import { subjectsOf } from '../people/subjects.ts';
import type { Finding } from '../rules/finding.ts';
import { cutFor } from '../session/cut-for.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import type { Session } from '../session/session.ts';
import { plainLine } from './plain-text.ts';

/** A frame with a hundred people may have hundreds of findings; nobody reads them in a list under a picture. */
const MOST_FINDINGS = 40;
const NAME = 100;

/**
 * @param size of the oriented photo, where it is known from elsewhere than the people file
 * @param output the one whose crop is shown; absent: the main crop
 */
export function sheetFrame(session: Session, check: FrameCheck, size: Size | undefined, output?: string): SheetFrame {
  const { frame, straighten } = check;
  const { crop, length, findings } = cutFor(check, output);
  const measured = session.people.photos.get(frame.photo.value);
  const shape = shapeOf(crop, measured?.size ?? size);
  return {
    index: frame.index,
    name: plainLine(frame.name, NAME),
    ...(shape !== undefined && { shape }),
    ...(length && { length }),
    ...(measured && { people: subjectsOf(measured.people, frame.subjects?.value).length }),
    isFinal: frame.final?.value === true,
    findings: findings.slice(0, MOST_FINDINGS).map(sheetFinding),
    picture: pictureName(frame.photo.value, crop, straighten),
  };
}

export function sheetFinding({ rule, severity, message, edge }: Finding): SheetFinding {
  return { rule, severity, message: plainLine(message, 300), ...(edge && { edge }) };
}

/** The same for the same part of the same photo. */
export function pictureName(photo: string, { x, y, w, h }: Rectangle, degrees: number): string {
  return createHash('sha256')
    .update(JSON.stringify([photo, x, y, w, h, degrees]))
    .digest('hex')
    .slice(0, 20);
}

/** Width over height of a crop as the eye sees it; undefined when it cannot be known, or is no shape at all. */
export function shapeOf({ w, h }: Rectangle, photo: Size | undefined): number | undefined {
  const shape = photo ? (w * photo.width) / (h * photo.height) : Number.NaN;
  return Number.isFinite(shape) && shape > 0 ? Math.min(20, Math.max(0.05, shape)) : undefined;
}
