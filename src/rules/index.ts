import { aspect } from './aspect/index.ts';
import { edgeAlongBody } from './edge-along-body/index.ts';
import { edgeAlongLimb } from './edge-along-limb/index.ts';
import { edgeClearance } from './edge-clearance/index.ts';
import { edgeObject } from './edge-object/index.ts';
import { eyeLine } from './eye-line/index.ts';
import { faceCut } from './face-cut/index.ts';
import { footCut } from './foot-cut/index.ts';
import { handCut } from './hand-cut/index.ts';
import { headroom } from './headroom/index.ts';
import { horizon } from './horizon/index.ts';
import { jointCut } from './joint-cut/index.ts';
import { length } from './length/index.ts';
import { lookRoom } from './look-room/index.ts';
import { narrowPlace } from './narrow-place/index.ts';
import { outsidePhoto } from './outside-photo/index.ts';
import { placement } from './placement/index.ts';
import { printBleed } from './print-bleed/index.ts';
import { printResolution } from './print-resolution/index.ts';
import { straightenCost } from './straighten-cost/index.ts';
import { tilt } from './tilt/index.ts';
import type { Rule } from './rule.ts';

/** Every rule about a crop, in the order in which a frame's findings are told. */
export const RULES: readonly Rule[] = [
  outsidePhoto,
  aspect,
  length,
  faceCut,
  jointCut,
  handCut,
  footCut,
  edgeAlongBody,
  edgeAlongLimb,
  edgeClearance,
  headroom,
  eyeLine,
  placement,
  lookRoom,
  narrowPlace,
  edgeObject,
  horizon,
  tilt,
  straightenCost,
  printResolution,
  printBleed,
];

/** Rules that speak only of outputs. */
export const PRINT_RULES: readonly Rule[] = [printResolution, printBleed];
