import type { OutputSize } from '../../geometry/output-size.ts';
import type { Edges, Size } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { INPUT_LIMITS } from '../../input-limits.ts';
import type { Format, Output } from '../../manifest/manifest.ts';
import { LONGEST_SIDES } from '../../photos/render/encode.ts';
import { formatOf } from './file-plan.ts';
import { shapeOfOutput } from './output-crop.ts';
import { sizeOfOutput } from './output-size.ts';

/** As narrow as no crop is: its file has the fewest pixels of all with the same long side. */
const STRIP: Edges = { left: 0, top: 0, right: 1, bottom: 1e6 };
const UNIT: Size = { width: 1, height: 1 };
const SQUARE: Edges = { left: 0, top: 0, right: 1, bottom: 1 };

/** Why a file of this size cannot be written; undefined when it can. */
export function tooLarge({ trimmed, bleed }: OutputSize, format: Format): string | undefined {
  const width = trimmed.width + 2 * bleed;
  const height = trimmed.height + 2 * bleed;
  const longest = LONGEST_SIDES[format];
  const { most } = INPUT_LIMITS.photoPixels;
  if (Math.max(width, height) > longest) {
    return `The file would be ${width} × ${height} pixels, and ${format} holds ${longest} along a side. Lower ppi or the size.`;
  }
  if (width * height <= most) return undefined;
  return `The file would have ${Math.round((width * height) / 1e6)} million pixels; ${most / 1e6} million are the most. Lower ppi or the size.`;
}

/** Why no file of an output can be written, whatever the crop; undefined when that depends on the crop. */
export function alwaysTooLarge(output: Output): string | undefined {
  const { paper, long, short, aspect } = output;
  if (!paper && !long && !short) return undefined;
  const isShaped = paper !== undefined || aspect?.value.kind === 'ratio';
  const crop = isShaped ? ofShape(shapeOfOutput(output, UNIT, SQUARE)!) : long ? STRIP : SQUARE;
  return tooLarge(sizeOfOutput(output, crop, widthOf(crop) / heightOf(crop)), formatOf(output));
}

function ofShape(shape: number): Edges {
  return { ...SQUARE, right: shape };
}
