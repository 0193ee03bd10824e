import { describe, expect, it } from 'vitest';
import type { PhotoNotes } from '../session/notes/notes.ts';
import { formatNotes } from './notes.ts';
import { codeSpan } from './notes-words.ts';

/** As many photos that all say the same. */
function photos(count: number, of: Omit<PhotoNotes, 'photo'>): PhotoNotes[] {
  return Array.from({ length: count }, (_, index) => ({ photo: `${index + 1}.jpg`, ...of }));
}

function text(notes: readonly PhotoNotes[]): string {
  return formatNotes({ title: 'Pier', photos: notes.length, notes });
}

describe('the notes as Markdown', () => {
  it('say when there is too little to say', () => {
    const few = text(photos(4, { overHead: 1 }));
    expect(few).toContain('too little to speak of habits');
    expect(few).not.toContain('##');
    const half = text([...photos(4, { overHead: 1 }), ...photos(1, {})]);
    expect(half).toContain('Only 4 photos can tell: too few to speak of a habit.');
    expect(half).not.toContain('Next time');
  });

  it('a photo that is levelled clockwise leans counter-clockwise, and its camera was held clockwise', () => {
    const found = text(photos(6, { levelling: 1.5 }));
    expect(found).toContain('On average they lean 1.5° counter-clockwise: the camera was held turned clockwise.');
    expect(found).toContain('turn the camera a little counter-clockwise');
    expect(text(photos(6, { levelling: -1.5 }))).toContain(
      'lean 1.5° clockwise: the camera was held turned counter-clockwise',
    );
  });

  it('leans to both sides are no habit', () => {
    const both = [...photos(4, { levelling: 1.5 }), ...photos(4, { levelling: -1.4 })];
    expect(text(both)).toContain('lean to no side in particular');
  });

  it('tell how much more room would have saved the feet', () => {
    const found = text([...photos(5, { feet: { missing: 0 } }), { photo: 'x.jpg', feet: { missing: 2.34 } }]);
    expect(found).toContain('in 1 of 6 photos that lean and show them:\n\n- `x.jpg`: 2.3 % of the height short');
    expect(found).toContain('3 % of the height more under the feet would have saved them all');
  });

  it('suggest poses for the hands, without a word about bodies', () => {
    const found = text(
      photos(6, { hands: ['three-quarter', 'half-length'], footBeforeFoot: true, clean: 'one-closer' }),
    );
    expect(found).toContain('- `1.jpg`: three-quarter length and half length');
    expect(found).toContain('crossed arms, a hand on the hip');
    expect(found).toContain('One length closer is clean: 6.');
    expect(found).not.toMatch(/slim|thin|wide[ -]hip|fat|flatter|ugly|wrong|bad\b/i);
  });

  it('advises for the hands only what opens the crop that they close: crossed arms are in the way of half length', () => {
    const half = text(photos(6, { hands: ['half-length'] }));
    expect(half).toContain('**Next time:** hands that hang, or are up at the face, keep half length open.');
    expect(half).not.toContain('crossed arms');
    const threeQuarter = text(photos(6, { hands: ['three-quarter'] }));
    expect(threeQuarter).toContain('in a pocket keep three-quarter length open.');
    expect(threeQuarter).not.toContain('hands that hang');
  });

  it('names twelve photos and counts the rest', () => {
    expect(text(photos(15, { hands: ['half-length'] }))).toContain('- `12.jpg`: half length\n- and 3 more\n');
  });

  it('show names as text, whatever they hold', () => {
    const photo = '`<img src=x>`\u001b[31m\u202e](command:x)';
    const found = formatNotes({
      title: '``x',
      photos: 5,
      notes: [{ photo, hands: ['half-length'] }, ...photos(5, { hands: [] })],
    });
    expect(found).not.toMatch(/[\u001b\u202e]/);
    expect(found).toContain('- `` `<img src=x>`\\u001b[31m\\u202e](command:x) ``: half length');
    expect(codeSpan('a``b`c')).toBe('```a``b`c```');
  });
});
