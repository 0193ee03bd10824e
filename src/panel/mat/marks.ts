import { edgesOf } from '../../geometry/shapes.ts';
import type { Switch } from '../messages.ts';
import type { FoundOnMat, FrameOnMat } from './frame-on-mat.ts';
import { earlierCrop, guideLines, hurtMarks, levelLines, printLines } from './overlay.ts';
import { personNumbers } from './person-numbers.ts';
import type { View } from './view.ts';
import { widthMap } from './widths.ts';

/** Everything that is drawn over the photo with the crop: guides, earlier crops, where it hurts, and who is who. */
export function marksOf(
  on: FrameOnMat,
  view: View,
  switches: ReadonlySet<Switch>,
  findings: readonly FoundOnMat[],
): SVGElement[] {
  const { scene, was, frame } = on;
  const saved = switches.has('as-saved') ? frame.saved : undefined;
  return [
    ...(on.isTurning ? levelLines(scene, view) : []),
    ...guideLines(scene, view, switches, on.configuration),
    ...printLines(scene, view),
    ...(switches.has('widths') ? widthMap(scene, view, on.configuration) : []),
    ...(on.isChanged ? [earlierCrop('was', was.crop, was.degrees, view)] : []),
    ...(saved ? [earlierCrop('saved', edgesOf(saved.crop, scene.photo), saved.degrees, view)] : []),
    ...hurtMarks(scene, view, findings.filter(({ output }) => output === undefined)), // prettier-ignore
    ...personNumbers(scene.figures, view),
  ];
}
