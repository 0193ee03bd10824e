import { isSameShape } from '../../geometry/ratio.ts';
import type { Edges, Rectangle } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import type { Length } from '../../people/lengths.ts';
import type { Finding } from '../../rules/finding.ts';
import { ladder } from '../../search/index.ts';
import type { FrameOnMat } from './frame-on-mat.ts';

/** A length that one can go to, with what is to be known of it beforehand. */
export interface OfferedLength {
  readonly length: Length;
  /** As the manifest writes it. */
  readonly crop: Rectangle;
  readonly edges: Edges;
  /** Errors and warnings that this crop would have. */
  readonly findings: readonly Finding[];
  /** The shape that is to be kept cannot be kept at this length. */
  readonly isOtherShape: boolean;
}

/**
 * The nearest crop of every length that fits body and photo.
 * @param keepsShape in the shape that the crop has now, where nothing else is asked for and that can be
 */
export function offeredLengths(on: FrameOnMat, keepsShape: boolean): OfferedLength[] {
  const { frame, configuration, was, keptShape } = on;
  const options = { allow: frame.allow };
  const asAsked = ladder(was, configuration, options);
  const kept =
    keepsShape && was.shape === undefined ? ladder({ ...was, shape: keptShape }, configuration, options) : [];
  return asAsked.map(({ length, answer }) => {
    const { crop, edges } = kept.find((rung) => rung.length === length)?.answer ?? answer;
    const findings = on.findingsAt(crop).filter(({ severity }) => severity !== 'info');
    const shape = widthOf(edges) / heightOf(edges);
    const isOtherShape = keepsShape && !isSameShape(shape, keptShape);
    return { length, crop, edges, findings, isOtherShape };
  });
}
