import type { Size } from '../geometry/shapes.ts';
import { MAT_PROTOCOL, type MatFrame, type ToMat } from '../panel/messages.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { canBeJudged, defaultsOf, sceneOfFrame } from '../session/frame-scene.ts';
import type { Session } from '../session/session.ts';
import { plainLine } from './plain-text.ts';

/** What the mat needs to draw and judge a frame by itself; or why it cannot. */
export function frameForMat(session: Session, { frame }: FrameCheck, size: Size | undefined): ToMat {
  const measured = session.people.photos.get(frame.photo.value);
  const photo = measured?.size ?? size;
  if (!canBeJudged(frame)) return nothing('This frame has values that cannot be read. The text says which.');
  if (!photo) return nothing(`${plainLine(frame.photo.value, 100)} has not been looked at, or is not there.`);
  const scene = sceneOfFrame(defaultsOf(session.manifest), frame, photo, measured?.people ?? [], measured);
  const { degrees, crop, shape, composition, askedLength, people, subjects, tilt, horizon } = scene;
  const { frames } = session.manifest;
  const matFrame: MatFrame = {
    index: frame.index,
    name: plainLine(frame.name, 100),
    place: `${frames.findIndex(({ index }) => index === frame.index) + 1} of ${frames.length}`,
    input: { photo, degrees, crop, shape, composition, askedLength, people, subjects, tilt, horizon },
    configuration: [...session.configuration.crops],
    allow: [...frame.allow.keys()],
    isFinal: frame.final?.value === true,
    isMeasured: measured !== undefined,
  };
  return { kind: 'frame', protocol: MAT_PROTOCOL, frame: matFrame };
}

export function nothing(reason: string): ToMat {
  return { kind: 'nothing', reason };
}
