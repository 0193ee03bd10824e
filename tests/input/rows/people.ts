import { peopleFile } from '../../cli/workspace.ts';
import { people, type Row } from './row.ts';

const good = peopleFile({ 'good.jpg': 'standing' }).trim();
const [start, end] = ['{"photo":"a.jpg","size":[4000,6000],"people":[', ']}'];
const person = '{"id":1,"box":[0.3,0.1,0.3,0.8],"points":{"nose":[0.45,0.2,0.98]}}';

/** Lines of the people file that cannot be used, each before the sound frame's own. */
export const PEOPLE_LINES: readonly Row[] = [
  people(
    'people: a merge that nobody finished',
    `<<<<<<< ours\n${good}\n=======\n>>>>>>> theirs`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
    'crops.yaml:1:1  error  crops.people.jsonl, line 3: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: zero bytes',
    Buffer.alloc(4096),
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a byte order mark and a broken line',
    '\ufeff{"photo":',
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a header of another version',
    '{"selvedge":2,"format":"people"}',
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: photo must be the name of a photo, such as "0142.jpg". Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: cut off in the middle',
    good.slice(0, 100),
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a list',
    `[${good}]`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: the line must be a map { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: brackets a hundred thousand deep',
    '['.repeat(100_000),
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a line of three megabytes',
    `{"photo":"${'a'.repeat(3_000_000)}"}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it has 3000012 characters, and 2000000 are the most that is read. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: no such thing as infinity',
    `${start}${person.replace('0.98', 'Infinity')}${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a number beyond all numbers',
    `${start}${person.replace('0.98', '1e999')}${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: person 1: nose must be [x, y, confidence], in fractions of the photo, the confidence from 0 to 1. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: text for numbers',
    `${start}${person.replace('0.45', '"0.45"')}${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: person 1: nose must be [x, y, confidence], in fractions of the photo, the confidence from 0 to 1. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: null for a point',
    `${start}${person.replace('[0.45,0.2,0.98]', 'null')}${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: person 1: nose must be [x, y, confidence], in fractions of the photo, the confidence from 0 to 1. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a person of nothing',
    `${start}null${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: person 1 must be a map { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a box of pixels',
    `${start}${person.replace('[0.3,0.1,0.3,0.8]', '[1200,600,1200,4800]')}${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: person 1: box must be [left, top, width, height] in fractions of the photo. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a negative size',
    `${start}${end}`.replace('[4000,6000]', '[-4000,6000]'),
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: size must be [width, height] in whole pixels, such as [4000, 6000]. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a size beyond every photo',
    `${start}${end}`.replace('[4000,6000]', '[1e9,1e9]'),
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: size is more than 400 million pixels. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: a crowd of a thousand',
    `${start}${Array(1000).fill(person).join(',')}${end}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it has 1000 people, and 100 are the most that is read. Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: points of no name, with an escape sequence',
    `${start}${person.replace('nose', '\\u001b[31mnose\\u009b')}${end}`,
    'crops.yaml:1:1  warning  crops.people.jsonl, line 1: Points that I do not know are left out: \\u001b[31mnose\\u009b. Names are those of COCO-WholeBody.  [manifest]',
  ),
  people(
    'people: __proto__',
    `{"__proto__":{"photo":"a.jpg"},"size":[1,1],"people":[]}`,
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: photo must be the name of a photo, such as "0142.jpg". Mend it, or delete it and measure again.  [manifest]',
  ),
  people(
    'people: another hundred broken lines',
    'what\n'.repeat(100),
    'crops.yaml:1:1  error  crops.people.jsonl, line 1: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
    'crops.yaml:1:1  error  crops.people.jsonl, line 2: This line is not used: it is not JSON: each line is one whole { … }. Mend it, or delete it and measure again.  [manifest]',
  ),
];
