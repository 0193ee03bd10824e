import type { Frame, Located, Manifest, TextRange } from '../manifest/manifest.ts';
import type { LocatedFinding } from '../session/located-finding.ts';

export interface RelatedPlace {
  readonly range: TextRange;
  readonly message: string;
}

/** Other places of the text that have to do with a finding: where what it misses is asked for. */
export function askedAt(manifest: Manifest, frame: Frame, { rule, related = [] }: LocatedFinding): RelatedPlace[] {
  const places: RelatedPlace[] = [];
  const add = (asked: Located<unknown> | undefined, message: string): void => {
    if (asked) places.push({ range: asked.origin ?? asked.range, message });
  };
  if (frame.crop?.origin) places.push({ range: frame.crop.origin, message: 'The crop is written here.' });
  if (rule === 'aspect') add(frame.aspect ?? manifest.aspect, 'The shape is asked for here.');
  if (rule === 'length') add(frame.length, 'The length is asked for here.');
  if (rule === 'placement') add(frame.compose ?? manifest.compose, 'Where the eye should go is asked for here.');
  if (rule === 'outside-photo') add(frame.straighten, 'The picture is turned here.');
  for (const { message } of related) add(frame.straighten ?? frame.crop, message);
  const own = manifest.rules.get(rule);
  if (own && own.settings.size > 0) places.push({ range: own.key, message: `What ${rule} asks for is set here.` });
  return places;
}
