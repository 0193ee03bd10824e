import type { Metadata, Sharp } from 'sharp';

/** `original` keeps the photo's own colours and profile; the others convert. */
export type ColourProfile = 'srgb' | 'display-p3' | 'original';

export interface ColourPlan {
  /** The photo is in red, green and blue; grey and CMYK are converted to sRGB whatever is asked. */
  readonly isColour: boolean;
  /** The photo has two bytes a channel. */
  readonly isDeepPhoto: boolean;
  /** So has the file. */
  readonly isDeep: boolean;
  /** The values stay as they are stored, with their profile. */
  readonly isKept: boolean;
  /** Colours are reckoned in a wide gamut, so that converting to Display P3 loses none. */
  readonly isWide: boolean;
  /** What the file is converted to and carries; absent: nothing is attached beyond what is kept. */
  readonly attached?: 'srgb' | 'p3';
}

/** File formats that hold two bytes a channel. */
const DEEP_FORMATS: ReadonlySet<string> = new Set(['png', 'tiff']);
const RED_GREEN_BLUE: ReadonlySet<string> = new Set(['srgb', 'rgb', 'rgb16']);

/** How a photo's colours are handled for a file of this format. */
export function colourPlan(
  { space, depth, icc }: Pick<Metadata, 'space' | 'depth' | 'icc'>,
  profile: ColourProfile,
  format: string,
): ColourPlan {
  const isDeepPhoto = depth === 'ushort';
  const isColour = RED_GREEN_BLUE.has(space);
  const isTagged = isColour && icc !== undefined;
  const isKept = profile === 'original' && isColour;
  const target = profile === 'display-p3' ? 'p3' : 'srgb';
  // The library takes untagged 16-bit values for Display P3; they are sRGB by convention, and stay untagged.
  const isConverted = !isKept && (isTagged || !isDeepPhoto);
  return {
    isColour,
    isDeepPhoto,
    isDeep: isDeepPhoto && DEEP_FORMATS.has(format),
    isKept,
    isWide: !isKept && target === 'p3' && isTagged && !isDeepPhoto,
    ...(isConverted && { attached: target }),
  };
}

/** Before anything else is done with the pixels. */
export function beginColours(picture: Sharp, plan: ColourPlan): Sharp {
  return plan.isWide ? picture.pipelineColourspace('rgb16') : picture;
}

/** As the last thing: depth, conversion and profile. */
export function endColours(picture: Sharp, plan: ColourPlan): Sharp {
  const deep = plan.isDeep ? picture.toColourspace('rgb16') : picture;
  if (plan.isKept) return deep.keepIccProfile();
  return plan.attached ? deep.withIccProfile(plan.attached) : deep;
}
