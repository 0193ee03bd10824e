import { roundCrop } from '../../src/geometry/crop.ts';
import { rectangleOf, type Size } from '../../src/geometry/shapes.ts';
import { LENGTHS } from '../../src/manifest/manifest.ts';
import { frameEntries } from '../../src/manifest/write.ts';
import { formatPeopleLine } from '../../src/people/people-file.ts';
import { randomPerson } from './bodies.ts';
import { Random } from './random.ts';

/** The texts of a session: what `openSession` reads from two files. */
export interface GeneratedSession {
  readonly manifest: string;
  /** One line a photo. */
  readonly people: string;
}

const PHOTO: Size = { width: 4000, height: 6000 };

/**
 * A session with as many frames, two people in each, written the way a photographer writes one: every frame with its
 * crop, some with straightening, a length, a note, a reason. The same arguments give the same session.
 * @param hasOutput whether there is a print with bleed to deliver: many of these crops leave it no room, so that a crop of
 * its own is searched for
 */
export function generatedSession(frames: number, { seed = 1, hasOutput = true } = {}): GeneratedSession {
  const random = new Random(seed);
  const output = ['deliver:', '  album: { aspect: "2:3", long: 300mm, ppi: 300, bleed: 3mm }'];
  const header = [
    '# Generated for a test.',
    'selvedge: 1',
    'session: Boardwalk, late light',
    'aspect: original',
    'rules:',
    '  placement: off',
    ...(hasOutput ? output : []),
    'frames:',
  ];
  const entries = Array.from({ length: frames }, (_, index) => frameText(random, photoName(index)));
  const people = Array.from({ length: frames }, (_, index) => peopleLine(random, photoName(index)));
  return { manifest: `${[...header, ...entries].join('\n')}\n`, people: `${people.join('\n')}\n` };
}

function photoName(index: number): string {
  return `${String(index + 1).padStart(5, '0')}.jpg`;
}

function frameText(random: Random, photo: string): string {
  const size = random.between(0.7, 0.95);
  const left = random.between(0, 1 - size);
  const top = random.between(0, 1 - size);
  const edges = {
    left: left * PHOTO.width,
    top: top * PHOTO.height,
    right: (left + size) * PHOTO.width,
    bottom: (top + size) * PHOTO.height,
  };
  const [first, ...others] = frameEntries({
    photo,
    crop: roundCrop(rectangleOf(edges, PHOTO)),
    ...(random.chance(0.2) && { straighten: Math.round(random.between(-200, 200)) / 100 }),
    ...(random.chance(0.3) && { length: random.pick(LENGTHS) }),
    ...(random.chance(0.1) && { note: 'client likes the wider one' }),
  });
  const reason = random.chance(0.1) ? ['allow: { joint-cut/left_wrist: "hand tucked in the pocket" }'] : [];
  return [`  - ${first!}`, ...[...others, ...reason].map((entry) => `    ${entry}`)].join('\n');
}

function peopleLine(random: Random, photo: string): string {
  const people = [1, 2].map((id) => {
    const height = PHOTO.height * random.between(0.55, 0.8);
    const foot = {
      x: PHOTO.width * ((id - 0.5) / 2 + random.between(-0.1, 0.1)),
      y: PHOTO.height * random.between(0.85, 0.95),
    };
    return randomPerson(random, id, PHOTO, foot, height);
  });
  return formatPeopleLine({ photo, size: PHOTO, people });
}
