import type { Length } from '../../people/lengths.ts';
import type { SettingValues } from '../rule.ts';

const height = (value: number, help: string) => ({ default: value, minimum: 0, maximum: 100, unit: '%', help });

/** Height of the eyes from the top, in percent of the crop's height (common practice, no source). */
export const EYE_LINE_SETTINGS = {
  threeQuarterFrom: height(14, 'Highest place of the eyes, three-quarter.'),
  threeQuarterTo: height(28, 'Lowest place of the eyes, three-quarter.'),
  halfLengthFrom: height(18, 'Highest place of the eyes, half-length.'),
  halfLengthTo: height(32, 'Lowest place of the eyes, half-length.'),
  headAndShouldersFrom: height(24, 'Highest place of the eyes, head and shoulders.'),
  headAndShouldersTo: height(38, 'Lowest place of the eyes, head and shoulders.'),
  closeUpFrom: height(30, 'Highest place of the eyes, close-up.'),
  closeUpTo: height(46, 'Lowest place of the eyes, close-up.'),
} as const;

type EyeLineSettings = SettingValues<typeof EYE_LINE_SETTINGS>;

const OF_LENGTH = {
  'full-length': undefined,
  'three-quarter': ['threeQuarterFrom', 'threeQuarterTo'],
  'half-length': ['halfLengthFrom', 'halfLengthTo'],
  'head-and-shoulders': ['headAndShouldersFrom', 'headAndShouldersTo'],
  'close-up': ['closeUpFrom', 'closeUpTo'],
} as const satisfies Record<Length, readonly [keyof EyeLineSettings, keyof EyeLineSettings] | undefined>;

/** Where the eyes belong for a length, as shares of the crop's height; undefined for full-length. */
export function eyeRange(length: Length, settings: EyeLineSettings): readonly [number, number] | undefined {
  const names = OF_LENGTH[length];
  return names && [settings[names[0]] / 100, settings[names[1]] / 100];
}
