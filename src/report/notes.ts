import type { UsualCrop } from '../session/notes/body.ts';
import type { PhotoNotes, SessionNotes } from '../session/notes/notes.ts';
import { leanSection } from './notes-lean.ts';
import { codeSpan, list, plural, type Section } from './notes-words.ts';

/** Fewer photos say nothing about habits. */
const ENOUGH = 5;

/** What a session teaches for the next one, as Markdown. */
export function formatNotes({ title, photos, notes }: SessionNotes): string {
  const heading =
    title === undefined ? '# Notes for the next session' : `# Notes for the next session, from ${codeSpan(title)}`;
  const counted =
    `From the ${notes.length} of ${plural(photos, 'photo')} in which people were measured, as they came out of the ` +
    'camera. Each counts once.';
  if (notes.length < ENOUGH) {
    const few = `That is too little to speak of habits: from ${ENOUGH} photos with measured people on there is more to say.`;
    return `${[heading, counted, few].join('\n\n')}\n`;
  }
  const sections = [feetSection, leanSection, headSection, handSection, stepSection, lengthSection];
  const told = sections.map((section) => sectionText(section(notes)));
  return `${[heading, counted, ...told].join('\n\n')}\n`;
}

function sectionText({ title, counted, found, next }: Section): string {
  if (counted === 0) return `## ${title}\n\n${found}`;
  const few = `Only ${plural(counted, 'photo')} can tell: too few to speak of a habit.`;
  const ending = counted < ENOUGH ? [few] : next === undefined ? [] : [`**Next time:** ${next}`];
  return [`## ${title}`, found, ...ending].join('\n\n');
}

function feetSection(notes: readonly PhotoNotes[]): Section {
  const title = 'Levelling and the feet';
  const asked = notes.filter(({ feet }) => feet !== undefined);
  const eaten = asked
    .filter(({ feet }) => feet?.missing !== 0)
    .sort((one, other) => (other.feet?.missing ?? Infinity) - (one.feet?.missing ?? Infinity));
  if (asked.length === 0) return { title, counted: 0, found: 'No photo that leans shows the feet.' };
  if (eaten.length === 0) {
    return {
      title,
      counted: asked.length,
      found: `${plural(asked.length, 'photo')} that lean and show the feet: levelling leaves them room.`,
    };
  }
  const missing = (note: PhotoNotes): string =>
    note.feet?.missing === undefined
      ? 'levelled, the sides have no room either'
      : `${percent(note.feet.missing)} of the height short`;
  const found =
    `Levelling takes the room under the feet in ${eaten.length} of ${plural(asked.length, 'photo')} that lean and show them:\n\n` +
    list(eaten, missing);
  return {
    title,
    counted: asked.length,
    found,
    next: roomAdvice(eaten),
  };
}

function roomAdvice(eaten: readonly PhotoNotes[]): string {
  const known = eaten.flatMap(({ feet }) => feet?.missing ?? []);
  const back = 'a step back leaves room all round for levelling.';
  if (known.length === 0) return back;
  const most = percent(Math.ceil(Math.max(...known)));
  const which = known.length === eaten.length ? 'them all' : `${known.length} of them`;
  return `${most} of the height more under the feet would have saved ${which}; ${back}`;
}

function headSection(notes: readonly PhotoNotes[]): Section {
  const title = 'Room over the head';
  const asked = notes.filter(({ overHead }) => overHead !== undefined);
  if (asked.length === 0) return { title, counted: 0, found: 'No photo shows where a head ends.' };
  const rooms = asked.map(({ overHead }) => overHead!).sort((one, other) => one - other);
  const middle = rooms[Math.floor(rooms.length / 2)]!;
  const little = asked.filter(({ overHead }) => overHead! < LITTLE_ROOM);
  const much = asked.filter(({ overHead }) => overHead! > MUCH_ROOM);
  const found = [
    `As shot, ${percent(middle)} of the height is over the highest head in the middle photo of ${asked.length}, from ${percent(rooms[0]!)} to ${percent(rooms.at(-1)!)}.`,
    ...(little.length > 0
      ? [
          `Under ${LITTLE_ROOM} %, where neither levelling nor a wider shape has anything to take from: ${little.length}.\n\n${list(little, ({ overHead }) => percent(overHead!))}`,
        ]
      : []),
    ...(much.length > 0
      ? [`Over ${MUCH_ROOM} %: ${much.length}.\n\n${list(much, ({ overHead }) => percent(overHead!))}`]
      : []),
  ].join('\n\n');
  const next =
    little.length * 4 >= asked.length
      ? 'a little more room over the head leaves every shape open.'
      : much.length * 2 > asked.length
        ? 'lower the camera, or come closer: that room is mostly cropped away, and its pixels with it.'
        : undefined;
  return { title, counted: asked.length, found, ...(next !== undefined && { next }) };
}

/** In percent of the photo's height (common practice, no source). */
const LITTLE_ROOM = 4;
const MUCH_ROOM = 30;

function handSection(notes: readonly PhotoNotes[]): Section {
  const title = 'Hands and the usual crops';
  const asked = notes.filter(({ hands }) => hands !== undefined);
  const inTheWay = asked.filter(({ hands }) => hands!.length > 0);
  if (asked.length === 0) return { title, counted: 0, found: 'No hands were found.' };
  if (inTheWay.length === 0) return { title, counted: asked.length, found: 'No hand is where a usual crop ends.' };
  const words = { 'three-quarter': 'three-quarter length', 'half-length': 'half length' };
  const found =
    `A hand is where the lower edge of a usual crop goes in ${inTheWay.length} of ${plural(asked.length, 'photo')} that show hands:\n\n` +
    list(inTheWay, ({ hands }) => hands!.map((each) => words[each]).join(' and '));
  return {
    title,
    counted: asked.length,
    found,
    next: handAdvice(new Set(inTheWay.flatMap(({ hands }) => hands!))),
  };
}

/** What leaves one crop open may close the other: only what was closed here is spoken of (common practice, no source). */
function handAdvice(closed: ReadonlySet<UsualCrop>): string {
  const words = [
    ['three-quarter', 'crossed arms, a hand on the hip or in a pocket keep three-quarter length open'],
    ['half-length', 'hands that hang, or are up at the face, keep half length open'],
  ] as const;
  const told = words.filter(([length]) => closed.has(length)).map(([, advice]) => advice);
  return `${told.join('; ')}.`;
}

function stepSection(notes: readonly PhotoNotes[]): Section {
  const title = 'One foot in front of the other';
  const asked = notes.filter(({ footBeforeFoot }) => footBeforeFoot !== undefined);
  const stepping = asked.filter(({ footBeforeFoot }) => footBeforeFoot);
  if (asked.length === 0) return { title, counted: 0, found: 'No photo shows the legs.' };
  if (stepping.length === 0) {
    const next =
      'a step with one foot in front of the other brings the knees together, and a three-quarter crop gets a narrow place to end at.';
    return {
      title,
      counted: asked.length,
      found: `Nobody puts one foot in front of the other in ${plural(asked.length, 'photo')} that show the legs.`,
      next,
    };
  }
  const found =
    `One foot in front of the other makes a narrow place to crop to in ${stepping.length} of ${plural(asked.length, 'photo')} that show the legs:\n\n` +
    list(stepping);
  return { title, counted: asked.length, found };
}

function lengthSection(notes: readonly PhotoNotes[]): Section {
  const title = 'Coming down a length';
  const asked = notes.filter(({ clean }) => clean !== undefined);
  const closer = asked.filter(({ clean }) => clean === 'one-closer');
  const further = asked.filter(({ clean }) => clean === 'further');
  if (asked.length === 0) return { title, counted: 0, found: 'No photo tells its length.' };
  if (closer.length + further.length === 0) {
    return {
      title,
      counted: asked.length,
      found: `Once level, each of ${plural(asked.length, 'photo')} has a clean crop of the length as shot.`,
    };
  }
  const found = [
    `Once level, ${asked.length - closer.length - further.length} of ${plural(asked.length, 'photo')} have a clean crop of the length as shot.`,
    ...(closer.length > 0 ? [`One length closer is clean: ${closer.length}.\n\n${list(closer)}`] : []),
    ...(further.length > 0
      ? [`It takes more than one length, or another shape: ${further.length}.\n\n${list(further)}`]
      : []),
  ].join('\n\n');
  const next =
    2 * (closer.length + further.length) > asked.length
      ? 'more room all round keeps the length that was meant.'
      : undefined;
  return { title, counted: asked.length, found, ...(next !== undefined && { next }) };
}

function percent(value: number): string {
  return `${Math.round(value * 10) / 10} %`;
}
