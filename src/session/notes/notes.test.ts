import { describe, expect, it } from 'vitest';
import { PHOTO, standing, type Standing } from '../../people/testing/standing.ts';
import { madeSession, type Measured } from '../testing/made-session.ts';
import { notesOf, type PhotoNotes } from './notes.ts';

/** What is noted of one photo, whose entry may say more. */
async function noted(measured: Measured, entry = ''): Promise<PhotoNotes | undefined> {
  const session = madeSession(`selvedge: 1\nframes:\n  - photo: a.jpg\n${entry}`, { 'a.jpg': measured });
  return (await notesOf(session)).notes[0];
}

/** Soles at 1.016 of the height below the head top. */
function withFeetAt(sole: number, change: Standing = {}): ReturnType<typeof standing>[] {
  return [standing({ height: 4000, headTop: sole - 4064, ...change })];
}

describe('the notes of a photo', () => {
  it('tell how much is missing under the feet when it is levelled', async () => {
    const people = withFeetAt(PHOTO.height - 60);
    const tilt = (degrees: number, confidence = 0.9): Measured => ({ people, tilt: { degrees, confidence } });
    expect((await noted(tilt(0.2)))?.feet).toBeUndefined();
    const one = (await noted(tilt(1)))?.feet?.missing ?? NaN;
    const three = (await noted(tilt(3)))?.feet?.missing ?? NaN;
    expect(one).toBeGreaterThan(0.3);
    expect(three).toBeGreaterThan(one);
    // Half the width times the tangent of the turn is what the lower edge loses at a side of a whole-width crop.
    expect(three).toBeLessThan((Math.tan((3 * Math.PI) / 180) * PHOTO.width * 100) / PHOTO.height);
    expect((await noted(tilt(-3)))?.feet?.missing).toBeCloseTo(three, 1);
    expect((await noted({ people: withFeetAt(4800), tilt: { degrees: 2, confidence: 0.9 } }))?.feet).toEqual({
      missing: 0,
    });
  });

  it('do not blame levelling for feet that the photo cuts', async () => {
    const people = withFeetAt(PHOTO.height + 50);
    expect((await noted({ people, tilt: { degrees: 2, confidence: 0.9 } }))?.feet).toBeUndefined();
  });

  it('take the straightening that is written before the one that was measured, and neither when it is unsure or meant', async () => {
    const people = withFeetAt(4800);
    const levelling = async (degrees: number, confidence: number, entry = ''): Promise<number | undefined> =>
      (await noted({ people, tilt: { degrees, confidence } }, entry))?.levelling;
    expect(await levelling(-1.2, 0.8)).toBe(-1.2);
    expect(await levelling(-1.2, 0.8, '    straighten: 0.7\n')).toBe(0.7);
    expect(await levelling(-1.2, 0.4)).toBeUndefined();
    expect(await levelling(12, 0.9)).toBeUndefined();
    expect(await levelling(1, 0.9, '    straighten: 20\n')).toBeUndefined();
  });

  it('tell the room over the highest head', async () => {
    expect((await noted([standing({ headTop: 600 }), standing({ id: 2, headTop: 300 })]))?.overHead).toBeCloseTo(5);
  });

  it('tell which usual crops would go through a hand', async () => {
    expect((await noted([standing({ arms: 'down' })]))?.hands).toEqual(['three-quarter']);
    expect((await noted([standing({ arms: 'akimbo' })]))?.hands).not.toContain('three-quarter');
    expect((await noted([standing({ arms: 'out' })]))?.hands).toEqual([]);
    expect((await noted([standing({ without: ['left_wrist', 'right_wrist'] })]))?.hands).toBeUndefined();
  });

  it('do not count hands outside the photo', async () => {
    const arms = { arms: 'down', height: 7000, headTop: 2800 } as const;
    // The wrists are at 6160: below the photo, which ends at 6000.
    expect((await noted([standing(arms)]))?.hands).toBeUndefined();
    expect((await noted([standing(arms), standing({ id: 2, arms: 'out' })]))?.hands).toEqual([]);
  });

  it('do not tell of a hand that the frame allows to be cut', async () => {
    const people = [standing({ arms: 'down' })];
    const allow = (key: string): string => `    allow: { ${key}: "in the pocket" }\n`;
    expect((await noted(people, allow('hand-cut/left_hand')))?.hands).toEqual(['three-quarter']);
    expect((await noted(people, allow('hand-cut')))?.hands).toEqual([]);
    const one = [standing({ arms: 'down', without: ['right_wrist'] })];
    expect((await noted(one, allow('hand-cut/left_hand')))?.hands).toEqual([]);
  });

  it('tell where one foot is in front of the other', async () => {
    const person = standing({ toes: true });
    const at = (name: 'left_ankle' | 'left_knee', x: number, y = 0) => {
      const point = person.points[name]!;
      return { ...point, x: point.x + x / PHOTO.width, y: point.y + y / PHOTO.height };
    };
    expect((await noted([person]))?.footBeforeFoot).toBe(false);
    const crossed = {
      ...person,
      points: { ...person.points, left_ankle: at('left_ankle', -300, 120), left_knee: at('left_knee', -200) },
    };
    expect((await noted([crossed]))?.footBeforeFoot).toBe(true);
    expect((await noted([standing({ without: ['left_ankle'] })]))?.footBeforeFoot).toBeUndefined();
  });

  it('tell whether the length as shot has a clean crop', async () => {
    expect((await noted(withFeetAt(5000)))?.clean).toBe('as-shot');
    const leaning = { people: withFeetAt(PHOTO.height - 60), tilt: { degrees: 4, confidence: 0.9 } };
    expect((await noted(leaning))?.clean).toBe('one-closer');
  });
});

it('each photo counts once, and those without people not at all', async () => {
  const text =
    'selvedge: 1\nsession: Pier\nframes: [{ photo: a.jpg }, { photo: a.jpg }, { photo: b.jpg }, { photo: c.jpg }]\n';
  const notes = await notesOf(madeSession(text, { 'a.jpg': [standing({})], 'b.jpg': [] }));
  expect(notes.photos).toBe(3);
  expect(notes.title).toBe('Pier');
  expect(notes.notes.map(({ photo }) => photo)).toEqual(['a.jpg']);
});
