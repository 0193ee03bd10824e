import { effectiveEdges } from '../geometry/crop.ts';
import { shapeWords } from '../geometry/shape-words.ts';
import type { Size } from '../geometry/shapes.ts';
import { heightOf, widthOf } from '../geometry/shapes.ts';
import { LENGTH_WORDS } from '../people/lengths.ts';
import type { FrameCheck } from './frame-check.ts';
import { canBeJudged, measuredScene } from './frame-scene.ts';
import type { Session } from './session.ts';

/** What a frame comes to, for reading; what is not known is absent. */
export interface FrameFacts {
  /** As a photographer says it. */
  readonly length?: string;
  readonly shape?: string;
  /** Of the crop. */
  readonly pixels?: Size;
  /** Room over the highest head, in percent of the crop's height. */
  readonly overHead?: number;
  readonly people?: number;
}

/** @param size of the oriented photo, where it is known from elsewhere than the people file */
export function factsOf(session: Session, check: FrameCheck, size?: Size): FrameFacts {
  const { frame, crop, straighten, length } = check;
  const measured = session.people.photos.get(frame.photo.value);
  const photo = measured?.size ?? size;
  if (!photo || !canBeJudged(frame)) return {};
  const edges = effectiveEdges(crop, photo, straighten);
  const pixels = { width: Math.round(widthOf(edges)), height: Math.round(heightOf(edges)) };
  const heads = measuredScene(session, frame)?.counted.flatMap(({ headTop }) => headTop?.y ?? []) ?? [];
  const over = heads.length > 0 && heightOf(edges) > 0 ? (Math.min(...heads) - edges.top) / heightOf(edges) : undefined;
  return {
    ...(length && { length: LENGTH_WORDS[length] }),
    ...(pixels.width > 0 && pixels.height > 0 && { shape: shapeWords(pixels.width, pixels.height), pixels }),
    ...(over !== undefined && { overHead: Math.round(over * 1000) / 10 }),
    ...(measured && { people: measured.people.length }),
  };
}
