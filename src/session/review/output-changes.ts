import { isDeepStrictEqual } from 'node:util';
import type { Rectangle, Size } from '../../geometry/shapes.ts';
import type { Crop, Frame, Located } from '../../manifest/manifest.ts';
import { degreesOf } from '../frame-scene.ts';
import { movementOf, type Movement } from './movement.ts';

/** What became of the crop that a frame has for one output alone. */
export interface OutputChange {
  readonly output: string;
  /** Absent: the frame had none of its own. */
  readonly then?: Rectangle;
  /** Absent: it has none any more. */
  readonly now?: Rectangle;
  /** When both are there. */
  readonly movement?: Movement;
}

/**
 * Outputs whose own crop of a frame was written, taken away or is another one, in the order of today's text.
 * @param photo size in pixels, where it is known
 */
export function outputChanges(then: Frame, now: Frame, photo: Size | undefined): OutputChange[] {
  const outputs = new Set([...now.deliver.keys(), ...then.deliver.keys()]);
  return [...outputs].flatMap((output): OutputChange[] => {
    const before = rectangleOf(then.deliver.get(output));
    const after = rectangleOf(now.deliver.get(output));
    if (isDeepStrictEqual(before, after)) return [];
    const movement =
      before &&
      after &&
      movementOf({ crop: before, degrees: degreesOf(then) }, { crop: after, degrees: degreesOf(now) }, photo);
    return [{ output, ...(before && { then: before }), ...(after && { now: after }), ...(movement && { movement }) }];
  });
}

/** What became of one, a short sentence each. */
export function outputWords({ output, then, movement }: OutputChange): string[] {
  if (!movement) return [then ? `no crop of its own for output ${output} any more` : `a crop of its own for output ${output}`]; // prettier-ignore
  const words = movement.words.length > 0 ? movement.words : ['other numbers, the same pixels'];
  return words.map((each) => `crop for output ${output}: ${each}`);
}

function rectangleOf(crop: Located<Crop> | undefined): Rectangle | undefined {
  if (!crop) return undefined;
  const { x, y, w, h } = crop.value;
  return { x, y, w, h };
}
