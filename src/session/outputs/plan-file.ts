import type { Frame, Output } from '../../manifest/manifest.ts';
import type { Finding } from '../../rules/finding.ts';
import { canBeJudged, defaultsOf, degreesOf, sceneOfFrame, withoutLines } from '../frame-scene.ts';
import type { PhotoState } from '../photo-states.ts';
import { SessionError } from '../session-error.ts';
import type { Session } from '../session.ts';
import type { FilePlan } from './file-plan.ts';
import { outputCrop } from './output-crop.ts';
import { fileRemarks } from './output-remarks.ts';

/**
 * How one file is made.
 * @throws SessionError saying why it cannot be
 */
export function planFile(
  { manifest, people, configuration, photosFolder }: Session,
  { frame, output }: { readonly frame: Frame; readonly output: Output },
  state: PhotoState | undefined,
): FilePlan & { readonly path: string; readonly remarks: readonly Finding[] } {
  if (state === undefined || state.kind === 'absent') {
    const meant = state?.meant === undefined ? '' : ` Did you mean ${state.meant}?`;
    throw new SessionError('refused' in photosFolder ? photosFolder.refused : `The photo is not there.${meant}`);
  }
  if (state.kind === 'unusable') throw new SessionError(state.message);
  const broken = manifest.problems.find(
    ({ severity, range }) => severity === 'error' && range.start >= output.range.start && range.end <= output.range.end,
  );
  if (broken) throw new SessionError(broken.message);
  if (!canBeJudged(frame) || (frame.unread.has('deliver') && !frame.deliver.has(output.id))) {
    throw new SessionError('The frame’s entry has an error; selvedge check says which.');
  }
  const measured = people.photos.get(frame.photo.value);
  const size = state.kind === 'changed' ? state.size : (measured?.size ?? state.size);
  if (!size) throw new SessionError('The photo’s size is not known.');
  const scene = sceneOfFrame(defaultsOf(manifest), frame, size, measured?.people ?? [], measured);
  const found = outputCrop(withoutLines(scene), configuration.crops, frame, output);
  if ('reason' in found) {
    throw new SessionError(`There is no crop of this shape: ${found.reason}. Write one under the frame’s deliver.`);
  }
  if (found.from === 'found' && state.kind === 'changed') {
    throw new SessionError('The photo has changed since its people were measured; run selvedge measure first.');
  }
  const remarks = [
    ...(measured ? [] : [unseen(found.from === 'found')]),
    ...fileRemarks(configuration.crops, frame, scene, found),
  ];
  return { path: state.path, crop: found.crop, degrees: degreesOf(frame), shape: found.scene.shape, output, remarks };
}

/** A crop that no rule about bodies has looked at. */
function unseen(isFound: boolean): Finding {
  const made = isFound ? 'this crop was made without knowing where they stand' : 'nothing is known of this crop';
  return {
    rule: 'not-measured',
    severity: 'warning',
    message: `Nobody has measured the people in the photo, so ${made}. Run selvedge measure first.`,
  };
}
