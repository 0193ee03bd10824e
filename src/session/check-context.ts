import { isDeepStrictEqual } from 'node:util';
import type { Manifest, Output } from '../manifest/manifest.ts';
import type { SessionConfiguration } from './file-rules.ts';
import { defaultsOf, type SessionDefaults } from './frame-scene.ts';
import { withoutPlaces } from './outputs/without-places.ts';
import type { PhotoState } from './photo-states.ts';
import { COMMAND_LINE_REMEDIES } from './remedies.ts';
import type { Session } from './session.ts';

/** Everything that a frame is checked against and that does not belong to the frame. */
export interface CheckContext extends SessionDefaults {
  /** What to do about people who are not measured, or not any more. */
  readonly toMeasure: string;
  readonly configuration: SessionConfiguration;
  readonly isFolderRefused: boolean;
  /** Every photo is elsewhere (a pull request, a machine without the drive), but some were measured. */
  readonly isWithoutPhotos: boolean;
  readonly outputs: readonly Output[];
}

/** What the disk says of each photo; a photo that is not in it is absent. */
export type PhotoStates = ReadonlyMap<string, PhotoState>;

/** The outputs of a manifest, wherever they are written in it. */
export function outputsOf({ deliver }: Pick<Manifest, 'deliver'>): Output[] {
  return [...deliver.values()].map(withoutPlaces);
}

/** The context of a session; `before` itself when it says the same. */
export function contextOf(
  session: Omit<Session, 'peoplePath'>,
  states: PhotoStates,
  before?: CheckContext,
): CheckContext {
  const { path, manifest, configuration, people, photosFolder, remedies = COMMAND_LINE_REMEDIES } = session;
  const photos = manifest.frames.map(({ photo }) => photo.value);
  const context: CheckContext = {
    toMeasure: remedies.measure(path),
    configuration,
    ...defaultsOf(manifest),
    isFolderRefused: 'refused' in photosFolder,
    isWithoutPhotos:
      photos.every((photo) => (states.get(photo)?.kind ?? 'absent') === 'absent') &&
      photos.some((photo) => people.photos.has(photo)),
    outputs: outputsOf(manifest),
  };
  if (!before) return context;
  return isDeepStrictEqual(before, context) ? before : withSameParts(before, context);
}

/** What has not changed is the same object: who keeps what it came from sees it at once. */
function withSameParts(before: CheckContext, context: CheckContext): CheckContext {
  const { configuration, outputs, aspect, composition } = before;
  const parts = { configuration, outputs, aspect, composition };
  const same = Object.entries(parts).filter(([name, part]) => isDeepStrictEqual(part, context[name as keyof typeof parts])); // prettier-ignore
  return { ...context, ...Object.fromEntries(same) };
}
