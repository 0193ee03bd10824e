import type { Rectangle } from '../geometry/shapes.ts';
import type { Length } from '../people/lengths.ts';
import type { Finding } from '../rules/finding.ts';
import { isAboutCrop } from './asked.ts';
import type { FrameCheck } from './frame-check.ts';

/** The crop that is shown of a frame, and what is found of it; where an output has none, the main crop and why. */
export function cutFor(
  { crop, length, findings, outputs }: FrameCheck,
  output: string | undefined,
): { readonly crop: Rectangle; readonly length: Length | undefined; readonly findings: readonly Finding[] } {
  const told = findings.filter(({ allowed }) => allowed === undefined);
  if (output === undefined) return { crop, length, findings: told };
  const cut = outputs?.get(output);
  if (!cut) return { crop, length, findings: told.filter((each) => each.output === output || !isAboutCrop(each)) };
  const others = told.filter((each) => (cut.isMain ? each.output === undefined : !isAboutCrop(each)));
  return { ...cut, findings: [...others, ...cut.findings] };
}
