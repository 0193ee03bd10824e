import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { formatNotes } from '../../src/report/notes.ts';
import { notesOf } from '../../src/session/notes/notes.ts';
import { madeSession } from '../../src/session/testing/made-session.ts';
import { standing } from '../../src/people/testing/standing.ts';
import { DEMO_PHOTOS, hasShared } from './support/shared-folder.ts';

/*
 * Truth: `camera_roll_deg` of the demo photos' labels. Their README: over 0 the horizon appears rotated clockwise, and the
 * manifest's `straighten` is the negative of it.
 */
interface Labels {
  readonly images: readonly { readonly file_name: string; readonly camera_roll_deg: number }[];
}

test.runIf(hasShared('demo-photos', 'which way the demo photos lean'))(
  'the notes tell each lean with its side',
  async () => {
    const { images } = JSON.parse(readFileSync(join(DEMO_PHOTOS, 'labels.json'), 'utf8')) as Labels;
    const leaning = images.filter(({ camera_roll_deg: roll }) => Math.abs(roll) >= 1 && Math.abs(roll) <= 8);
    expect(leaning.length).toBeGreaterThan(2);
    const frames = images.map(({ file_name: photo }) => `  - photo: ${photo}\n`).join('');
    const people = images.map(({ file_name: photo, camera_roll_deg: roll }) => {
      return [photo, { people: [standing({})], tilt: { degrees: -roll, confidence: 0.9 } }] as const;
    });
    const session = madeSession(`selvedge: 1\nframes:\n${frames}`, Object.fromEntries(people));
    const text = formatNotes(await notesOf(session));
    for (const { file_name: photo, camera_roll_deg: roll } of leaning) {
      const side = roll > 0 ? 'clockwise' : 'counter-clockwise';
      expect(text).toContain(`- \`${photo}\`: leans ${Math.round(Math.abs(roll) * 10) / 10}° ${side}\n`);
    }
  },
);
