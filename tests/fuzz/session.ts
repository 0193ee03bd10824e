import sharp from 'sharp';
import { EMPTY_PEOPLE_FILE, formatPeopleFile } from '../../src/people/people-file.ts';
import type { PhotoPeople } from '../../src/people/person.ts';
import { rectangleOf } from '../../src/geometry/shapes.ts';
import { generatedScene } from '../scenes/generate.ts';
import type { Random } from '../scenes/random.ts';
import { mutateBytes } from './mutate-bytes.ts';
import { mutateJsonLines } from './mutate-json.ts';
import { mutateCharacters, mutateLines } from './mutate-text.ts';

/** One hostile session: what to write into an empty folder. */
export interface HostileSession {
  readonly manifest: string | Buffer;
  readonly people: string | Buffer;
  readonly photos: ReadonlyMap<string, Buffer>;
}

const PHOTOS = ['a.jpg', 'b.png', 'c.tiff', 'd.webp', 'e.nef', 'gone.jpg'];

/** A session of a few frames with people, then spoilt in one to three of its parts. The same random numbers, the same session. */
export function hostileSession(random: Random, pictures: ReadonlyMap<string, Buffer>): HostileSession {
  const count = 1 + Math.floor(random.unit() * 4);
  const scenes = Array.from({ length: count }, () => generatedScene(Math.floor(random.unit() * 1e6)));
  const frames = scenes.map((scene, index) => ({ scene, photo: PHOTOS[index]! }));
  const manifest = writtenManifest(frames, random);
  const people = formatPeopleFile(
    EMPTY_PEOPLE_FILE,
    frames.map(({ scene, photo }): PhotoPeople => ({ photo, size: scene.photo, people: scene.people })),
  );
  const part = random.unit();
  return {
    manifest: part < 0.6 ? spoiltText(manifest, random, mutateLines) : manifest,
    people: part > 0.3 && part < 0.9 ? spoiltText(people, random, mutateJsonLines) : people,
    photos: new Map(
      [...pictures].map(([name, bytes]) => [name, part > 0.8 ? mutateBytes(bytes, random) : bytes] as const),
    ),
  };
}

type Mutation = (text: string, random: Random) => string;

function spoiltText(text: string, random: Random, mutation: Mutation): string | Buffer {
  if (random.chance(0.05)) return mutateBytes(Buffer.from(text), random);
  return random.chance(0.15) ? mutateCharacters(text, random) : mutation(text, random);
}

interface FrameOfScene {
  readonly scene: ReturnType<typeof generatedScene>;
  readonly photo: string;
}

function writtenManifest(frames: readonly FrameOfScene[], random: Random): string {
  const head = [
    'selvedge: 1 # the format',
    `aspect: ${random.pick(['original', 'free', '"2:3"'])}`,
    `compose: ${random.pick(['thirds', 'centred', 'free'])}`,
    'rules: { headroom: { severity: warning }, eye-line: off }',
    'x-shared: &a { x: 0.1, y: 0.1, w: 0.5, h: 0.5 }',
    'deliver: { album: { aspect: "2:3", long: 300mm, ppi: 300 } }',
    'frames:',
  ];
  return `${[...head, ...frames.flatMap((frame) => frameLines(frame, random))].join('\n')}\n`;
}

function frameLines({ scene, photo }: FrameOfScene, random: Random): string[] {
  const { x, y, w, h } = rectangleOf(scene.crop, scene.photo);
  const crop = `{ x: ${x.toFixed(4)}, y: ${y.toFixed(4)}, w: ${w.toFixed(4)}, h: ${h.toFixed(4)} }`;
  const lines = [
    `    crop: ${random.pick([crop, crop, crop, '*a', '{ <<: *a, x: 0.2 }'])} # kept`,
    `    straighten: ${scene.degrees}`,
    `    length: ${random.pick(['full-length', 'three-quarter', 'half-length', 'close-up'])}`,
    `    subjects: [${scene.people.map(({ id }) => id).join(', ')}]`,
    '    allow: { joint-cut/left_wrist: "meant", hand-cut: "meant too" }',
    '    note: "the client likes it"',
    '    final: true',
  ];
  return [`  - photo: ${photo}`, ...lines.filter((_, index) => index === 0 || random.chance(0.3))];
}

/** One small picture of each kind that is read. */
export async function smallPictures(): Promise<ReadonlyMap<string, Buffer>> {
  const picture = sharp({ create: { width: 24, height: 36, channels: 3, background: '#a86' } });
  const jpeg = await picture.clone().withMetadata({ orientation: 6 }).jpeg().toBuffer();
  const tiff = await picture.clone().tiff({ compression: 'jpeg' }).toBuffer();
  return new Map([
    ['a.jpg', jpeg],
    ['b.png', await picture.clone().png().toBuffer()],
    ['c.tiff', await picture.clone().tiff().toBuffer()],
    ['d.webp', await picture.clone().webp().toBuffer()],
    ['e.nef', tiff],
  ]);
}
