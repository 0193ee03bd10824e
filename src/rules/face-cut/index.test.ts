import { describe, expect, test } from 'vitest';
import { turnPoint } from '../../geometry/turning.ts';
import { findingsOf, said } from '../testing/scenes.ts';
import { PHOTO, standing } from '../../people/testing/standing.ts';

const RULE = 'face-cut';
const people = [standing()];

// The face of the standing figure: eyes 1928 to 2072 at 1820, chin at 2068 (62 of 118 from the eyes to the shoulders),
// and 15 % of the 248 pixels from eyes to chin around it, but for the chin: 1890.8 to 2109.2, 1782.8 to 2068.
describe('an edge through the face', () => {
  test.each([
    ['the chin is in', { bottom: 2069 }, []],
    ['the chin is cut', { bottom: 2067 }, ['1 bottom']],
    ['through the eyes from below', { bottom: 1820 }, ['1 bottom']],
    ['the face is out below: nobody is in', { bottom: 1782 }, ['']],
    ['over the eyes', { top: 1782 }, []],
    ['through the brow', { top: 1784 }, ['1 top']],
    ['through the middle from the left', { left: 2000 }, ['1 left']],
    ['just left of it', { left: 1890 }, []],
    ['just in it', { left: 1892 }, ['1 left']],
    ['just right of it', { right: 2110 }, []],
    ['just in it from the right', { right: 2108 }, ['1 right']],
    ['two edges at once', { right: 2000, top: 1900 }, ['1 top', '1 right']],
    ['an edge whose span passes under the face: a body without it', { left: 2000, top: 2069 }, ['1 top']],
    ['under everything', { top: 5600 }, ['']],
    ['beside everything', { left: 3500 }, ['']],
  ])('%s', (_, edges, expected) => {
    expect(said(RULE, { people, ...edges }).sort()).toEqual([...expected].sort());
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { people, left: 2000 })).toEqual([
    {
      rule: RULE,
      severity: 'error',
      message: 'The left edge cuts the face of person 1. Open until the whole face is in, or leave the person out.',
      person: 1,
      edge: 'left',
      value: 50,
    },
  ]);
});

test('a body without its face, and nobody at all', () => {
  expect(findingsOf(RULE, { people, top: 3000 }).map(({ message }) => message)).toEqual([
    'The crop shows person 1 without their face. Open the top until the whole face is in, or leave the person out.',
  ]);
  expect(findingsOf(RULE, { people, left: 3500 }).map(({ message }) => message)).toEqual([
    'No subject’s face is in the crop. Move or open it until a whole face is in.',
  ]);
});

test('of two, one may be left out to the side, but not from the chest down', () => {
  const pair = [standing({ x: 1200 }), standing({ id: 2, x: 2900, headTop: 3000, height: 3000 })];
  expect(said(RULE, { people: pair, left: 1900 })).toEqual([]);
  expect(said(RULE, { people: pair, top: 2300 })).toEqual(['1 top']);
});

test('who was photographed from behind has no face to show', () => {
  const behind = [standing({ without: ['nose', 'left_eye', 'right_eye'] })];
  expect(said(RULE, { people: behind, top: 3000 })).toEqual([]);
  expect(said(RULE, { people: [...behind, standing({ id: 2, x: 3000 })], right: 2400 })).toEqual([]);
});

describe('what was measured', () => {
  test('a chin that was measured is taken', () => {
    const [person] = people;
    const chin = { x: 0.5, y: 2100 / PHOTO.height, confidence: 0.9 };
    expect(said(RULE, { people: [{ ...person!, chin }], bottom: 2090 })).toEqual(['1 bottom']);
  });

  test('the least sure feature decides how firm the word is', () => {
    expect(said(RULE, { people: [standing({ sureness: { nose: 0.5 } })], left: 2000 })).toEqual(['1 left possibly']);
  });

  test('one eye and no nose is no face', () => {
    expect(said(RULE, { people: [standing({ without: ['nose', 'left_eye'] })], left: 2000 })).toEqual([]);
  });

  test('without shoulders the chin lies below the nose', () => {
    // From the eyes (1820) to the nose (1940), and 1.6 times as far again: 2132.
    const bust = [standing({ without: ['left_shoulder'] })];
    expect(said(RULE, { people: bust, bottom: 2131 })).toEqual(['1 bottom']);
    expect(said(RULE, { people: bust, bottom: 2133 })).toEqual([]);
  });
});

describe('who counts', () => {
  test('a bystander’s face says nothing, unless the frame names them', () => {
    const beside = [standing(), standing({ id: 2, height: 1500, x: 3300, headTop: 3500 })];
    expect(said(RULE, { people: beside, right: 3300 })).toEqual([]);
    expect(said(RULE, { people: beside, right: 3300, subjects: [1, 2] })).toEqual(['2 right']);
  });

  test('of two people who overlap each face is told', () => {
    const pair = [standing({ x: 1900 }), standing({ id: 2, x: 2050 })];
    expect(said(RULE, { people: pair, left: 1980 })).toEqual(['1 left', '2 left']);
  });
});

test('in a turned picture the face is where turning puts it', () => {
  const tilted = [standing({ x: 3000 })];
  const eyes = turnPoint({ x: 3000, y: 1820 }, PHOTO, 8);
  expect(said(RULE, { people: tilted, degrees: 8, left: 1000, right: eyes.x, top: 1000, bottom: 4000 })).toEqual([
    '1 right',
  ]);
  expect(said(RULE, { people: tilted, degrees: 8, left: 1000, right: eyes.x + 200, top: 1000, bottom: 4000 })).toEqual(
    [],
  );
});

test('the photo’s own edge cuts like any other', () => {
  expect(said(RULE, { people: [standing({ x: 20 })] })).toEqual(['1 left']);
});
