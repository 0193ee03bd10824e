import { effectiveEdges } from '../../geometry/crop.ts';
import type { OutputSize } from '../../geometry/output-size.ts';
import type { Rectangle, Size } from '../../geometry/shapes.ts';
import type { Format, Output } from '../../manifest/manifest.ts';
import type { Cut } from '../../photos/render/placement.ts';
import type { FileOptions } from '../../photos/render/render.ts';
import { sizeOfOutput } from './output-size.ts';
import { digestOf } from './record.ts';

/** Raised when the same input gives other pixels than before. */
const RENDERING = 1;
const DEFAULT_FORMAT: Format = 'jpeg';

export function formatOf({ format }: Output): Format {
  return format?.value ?? DEFAULT_FORMAT;
}

/** What one file is made from, but for the photo's bytes. */
export interface FilePlan {
  readonly crop: Rectangle;
  readonly degrees: number;
  readonly shape: number | undefined;
  readonly output: Output;
}

/** What is cut out of a photo of this size. */
export function cutOf({ crop, degrees, shape, output }: FilePlan, photo: Size): Cut {
  const edges = effectiveEdges(crop, photo, degrees);
  const { trimmed, bleed } = sizeOfOutput(output, edges, shape);
  return { photo, degrees, crop: edges, trimmed, bleed };
}

export function fileOptionsOf(output: Output, size: OutputSize): FileOptions {
  return {
    format: formatOf(output),
    quality: output.quality?.value,
    profile: output.profile?.value ?? 'srgb',
    sharpen: output.sharpen?.value ?? true,
    ppi: size.inches === undefined ? undefined : size.ppi,
    metadata: { kept: output.metadata?.value ?? 'all', location: output.location?.value === true },
  };
}

/** The same for files that are made from the same photo in the same way. */
export function keyOf(photoDigest: string, { crop, degrees, shape, output }: FilePlan, size: OutputSize): string {
  const made = { RENDERING, photoDigest, crop, degrees, shape, size, options: fileOptionsOf(output, size) };
  return digestOf(JSON.stringify(made));
}
