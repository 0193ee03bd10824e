import type { SegmentKind } from '../../people/segments.ts';
import type { SettingValues } from '../rule.ts';

const share = (value: number, help: string) => ({ default: value, minimum: 0, maximum: 100, unit: '%', help });

/** Where a cut is fine (common practice, no source). Percent along the part, from its upper joint to its lower one. */
export const JOINT_CUT_SETTINGS = {
  band: {
    default: 6,
    minimum: 0,
    maximum: 30,
    unit: '%',
    help: 'How near an edge may come to a joint, in percent of the longest limb that ends there.',
  },
  torsoFrom: share(12, 'A cut through the torso is fine from here (shoulder 0, hip 100).'),
  torsoTo: share(82, 'A cut through the torso is fine up to here.'),
  thighFrom: share(25, 'A cut through the thigh is fine from here (hip 0, knee 100).'),
  thighTo: share(80, 'A cut through the thigh is fine up to here.'),
  shinFrom: share(40, 'A cut through the lower leg is fine from here (knee 0, ankle 100).'),
  shinTo: share(65, 'A cut through the lower leg is fine up to here.'),
  upperArmFrom: share(25, 'A cut through the upper arm is fine from here (shoulder 0, elbow 100).'),
  upperArmTo: share(75, 'A cut through the upper arm is fine up to here.'),
  forearmFrom: share(20, 'A cut through the forearm is fine from here (elbow 0, wrist 100).'),
  forearmTo: share(70, 'A cut through the forearm is fine up to here.'),
} as const;

export type JointCutSettings = SettingValues<typeof JOINT_CUT_SETTINGS>;

/** The share of a part (0 to 1 from its upper joint) between which a cut is fine. */
export function fineRange(kind: SegmentKind, settings: JointCutSettings): readonly [number, number] {
  switch (kind) {
    case 'torso':
      return [settings.torsoFrom / 100, settings.torsoTo / 100];
    case 'thigh':
      return [settings.thighFrom / 100, settings.thighTo / 100];
    case 'shin':
      return [settings.shinFrom / 100, settings.shinTo / 100];
    case 'upper-arm':
      return [settings.upperArmFrom / 100, settings.upperArmTo / 100];
    case 'forearm':
      return [settings.forearmFrom / 100, settings.forearmTo / 100];
  }
}
