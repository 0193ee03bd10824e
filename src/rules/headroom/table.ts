import type { Length } from '../../people/lengths.ts';
import type { SettingValues } from '../rule.ts';

const gap = (value: number, help: string) => ({ default: value, minimum: 0, maximum: 60, unit: '%', help });

/** Room over the head by length, in percent of the crop's height (common practice, no source). */
export const HEADROOM_SETTINGS = {
  fullLengthLeast: gap(4, 'Least room over the head, full-length.'),
  fullLengthMost: gap(15, 'Most room over the head, full-length.'),
  threeQuarterLeast: gap(4, 'Least room over the head, three-quarter.'),
  threeQuarterMost: gap(14, 'Most room over the head, three-quarter.'),
  halfLengthLeast: gap(4, 'Least room over the head, half-length.'),
  halfLengthMost: gap(14, 'Most room over the head, half-length.'),
  headAndShouldersLeast: gap(3, 'Least room over the head, head and shoulders.'),
  headAndShouldersMost: gap(14, 'Most room over the head, head and shoulders.'),
  closeUpLeast: gap(2, 'Least room over the head, close-up.'),
  closeUpMost: gap(10, 'Most room over the head, close-up.'),
  smallFigure: {
    default: 60,
    minimum: 0,
    maximum: 100,
    unit: '%',
    help: 'A full-length figure under this share of the crop’s height may have any amount of room over the head.',
  },
} as const;

type HeadroomSettings = SettingValues<typeof HEADROOM_SETTINGS>;

const OF_LENGTH = {
  'full-length': ['fullLengthLeast', 'fullLengthMost'],
  'three-quarter': ['threeQuarterLeast', 'threeQuarterMost'],
  'half-length': ['halfLengthLeast', 'halfLengthMost'],
  'head-and-shoulders': ['headAndShouldersLeast', 'headAndShouldersMost'],
  'close-up': ['closeUpLeast', 'closeUpMost'],
} as const satisfies Record<Length, readonly [keyof HeadroomSettings, keyof HeadroomSettings]>;

/** Least and most room over the head for a length, as shares of the crop's height. */
export function headroomRange(length: Length, settings: HeadroomSettings): readonly [number, number] {
  const [least, most] = OF_LENGTH[length];
  return [settings[least] / 100, settings[most] / 100];
}
