import { parseManifest } from '../../manifest/parse.ts';
import { formatPeopleLine, parsePeopleFile } from '../../people/people-file.ts';
import type { Person, PhotoPeople } from '../../people/person.ts';
import { PHOTO } from '../../people/testing/standing.ts';
import { configurationOf, RULE_CATALOGUE } from '../file-rules.ts';
import type { Session } from '../session.ts';

/** What a test measured in a photo: its people, or all that a line of the people file can say. */
export type Measured = readonly Person[] | Partial<PhotoPeople>;

/** A session whose photos are all there, 4000 × 6000 pixels, with these people. */
export function madeSession(text: string, photos: Readonly<Record<string, Measured>>): Session {
  const manifest = parseManifest(text, RULE_CATALOGUE);
  const lines = Object.entries(photos).map(([photo, measured]) => {
    const given = 'length' in measured ? { people: measured } : measured;
    return formatPeopleLine({ photo, size: PHOTO, people: [], ...given });
  });
  return {
    path: 'crops.yaml',
    peoplePath: 'crops.people.jsonl',
    manifest,
    configuration: configurationOf(manifest),
    people: parsePeopleFile(`${lines.join('\n')}\n`),
    photosFolder: { path: '/photos' },
  };
}
