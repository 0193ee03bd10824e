import { describe, expect, it } from 'vitest';
import { applyEdits } from '../manifest/text-edit.ts';
import { parseManifest } from '../manifest/parse.ts';
import { standing } from '../people/testing/standing.ts';
import { checkMain } from './frame-check.ts';
import { contextOf } from './check-context.ts';
import { burstLength, carryToNext, framesAfter } from './carry.ts';
import { RULE_CATALOGUE } from './file-rules.ts';
import { isAboutCrop } from './asked.ts';
import { isPressing } from './located-finding.ts';
import type { Session } from './session.ts';
import { madeSession } from './testing/made-session.ts';

const TEXT = `selvedge: 1
aspect: free
frames:
  - photo: a.jpg # the one
    crop: { x: 0.26, y: 0.206, w: 0.48, h: 0.48 }
    aspect: original
  # the same, wider
  - photo: a.jpg
  - photo: b.jpg
  - { photo: c.jpg, final: true }
  - photo: d.jpg
  - photo: e.jpg # two
  - photo: f.jpg
`;
const PEOPLE = {
  'a.jpg': [standing({})],
  'b.jpg': [standing({ x: 2100, headTop: 1450 })],
  'c.jpg': [standing({})],
  'd.jpg': [standing({ height: 3700, x: 1900 })],
  'e.jpg': [standing({ x: 1200 }), standing({ id: 2, x: 2800 })],
};

function session(): Session {
  return madeSession(TEXT, PEOPLE);
}

function pressingOf(of: Session, text: string, name: string): string[] {
  const manifest = parseManifest(text, RULE_CATALOGUE);
  const frame = manifest.frames.find((each) => each.name === name)!;
  const measured = of.people.photos.get(frame.photo.value);
  const context = contextOf({ ...of, manifest }, new Map());
  const { findings } = checkMain(context, { frame, problems: [], measured, state: { kind: 'present', path: '' } });
  return findings
    .filter(isPressing)
    .filter(isAboutCrop)
    .map(({ message }) => message);
}

describe('carrying a crop to the next frames', () => {
  it('proposes the frames of the burst: as many people, about as tall, each photo once', () => {
    const made = session();
    const [first] = made.manifest.frames;
    expect(framesAfter(made, first!).map(({ name }) => name)).toEqual(['b.jpg', 'c.jpg', 'd.jpg', 'e.jpg', 'f.jpg']);
    expect(burstLength(made, first!)).toBe(3);
  });

  it('writes clean crops, leaves approved frames alone, and says why a frame could not take it', async () => {
    const made = session();
    const [first] = made.manifest.frames;
    expect(pressingOf(made, TEXT, 'a.jpg')).toEqual([]);
    const { taken, left, edits } = await carryToNext(made, first!, 5);
    expect(taken.map(({ frame }) => frame.name)).toEqual(['b.jpg', 'd.jpg']);
    expect(left.map(({ frame, reason }) => `${frame.name}: ${reason}`)).toEqual([
      'c.jpg: it is approved',
      'e.jpg: 2 people count here, and one person counts there',
      'f.jpg: nobody was measured in it',
    ]);
    const after = applyEdits(TEXT, edits);
    const lines = after.split('\n');
    expect(lines.filter((line) => !TEXT.split('\n').includes(line))).toHaveLength(2);
    expect(lines.filter((line) => line === '    aspect: original')).toHaveLength(3);
    expect(lines).toHaveLength(TEXT.split('\n').length + 4);
    for (const name of ['b.jpg', 'd.jpg']) expect(pressingOf(made, after, name)).toEqual([]);
  });

  it('changes nothing the second time', async () => {
    const made = session();
    const text = applyEdits(TEXT, (await carryToNext(made, made.manifest.frames[0]!, 3)).edits);
    const again = madeSession(text, PEOPLE);
    const { taken, edits } = await carryToNext(again, again.manifest.frames[0]!, 3);
    expect(taken.map(({ isSame }) => isSame)).toEqual([true, true]);
    expect(edits).toEqual([]);
  });

  it('refuses where nobody was measured, or the file as a whole cannot be trusted', async () => {
    const made = session();
    await expect(carryToNext(made, made.manifest.frames.at(-1)!, 1)).rejects.toThrow('Nobody was measured in f.jpg');
    const other = madeSession(TEXT.replace('selvedge: 1', 'selvedge: 7'), PEOPLE);
    await expect(carryToNext(other, other.manifest.frames[0]!, 1)).rejects.toThrow('Nothing was carried');
  });
});
