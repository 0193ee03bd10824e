import { outputSize, type OutputSize } from '../../geometry/output-size.ts';
import { isSameShape } from '../../geometry/ratio.ts';
import type { Edges } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import type { Output } from '../../manifest/manifest.ts';

/** The size of an output of a crop with these edges (pixels). */
export function sizeOfOutput(output: Output, crop: Edges, shape: number | undefined): OutputSize {
  const { paper, long, short, ppi, bleed, safe } = output;
  const asked = {
    paper: paper?.value,
    long: long?.value,
    short: short?.value,
    ppi: ppi?.value,
    bleed: bleed?.value,
    safe: safe?.value,
  };
  const size = { width: widthOf(crop), height: heightOf(crop) };
  const own = size.width / size.height;
  // A crop of another shape keeps its own: a picture is never squeezed.
  const isShaped = shape !== undefined && isSameShape(own, shape);
  return outputSize(asked, size, isShaped ? shape : own);
}
