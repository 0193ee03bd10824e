import { effectiveEdges } from '../geometry/crop.ts';
import { shapeWords } from '../geometry/shape-words.ts';
import type { Size } from '../geometry/shapes.ts';
import { heightOf, widthOf } from '../geometry/shapes.ts';
import { LENGTH_WORDS } from '../people/lengths.ts';
import type { Scene } from '../rules/scene.ts';
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
  /** Room under the lowest foot, in percent of the crop's height; absent where the crop ends above it. */
  readonly underFeet?: number;
  /** Room beside the people that count, in percent of the crop's width; negative where an edge cuts one. */
  readonly beside?: { readonly left: number; readonly right: number };
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
  return {
    ...(length && { length: LENGTH_WORDS[length] }),
    ...(pixels.width > 0 && pixels.height > 0 && { shape: shapeWords(pixels.width, pixels.height), pixels }),
    ...marginsOf(measuredScene(session, frame)),
    ...(measured && { people: measured.people.length }),
  };
}

function marginsOf(scene: Scene | undefined): Pick<FrameFacts, 'overHead' | 'underFeet' | 'beside'> {
  if (!scene || scene.counted.length === 0) return {};
  const { crop, counted } = scene;
  if (heightOf(crop) <= 0 || widthOf(crop) <= 0) return {};
  const percent = (room: number, of: number): number => Math.round((room / of) * 1000) / 10;
  const heads = counted.flatMap(({ headTop }) => headTop?.y ?? []);
  const under = percent(crop.bottom - Math.max(...counted.map(({ lines }) => lines.sole)), heightOf(crop));
  return {
    ...(heads.length > 0 && { overHead: percent(Math.min(...heads) - crop.top, heightOf(crop)) }),
    ...(under >= 0 && { underFeet: under }),
    beside: {
      left: percent(Math.min(...counted.map(({ extent }) => extent.left)) - crop.left, widthOf(crop)),
      right: percent(crop.right - Math.max(...counted.map(({ extent }) => extent.right)), widthOf(crop)),
    },
  };
}
