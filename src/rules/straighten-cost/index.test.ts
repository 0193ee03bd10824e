import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { configure } from '../configuration.ts';
import type { Finding } from '../finding.ts';
import { checkScene } from '../report.ts';
import type { Frame } from '../testing/scenes.ts';
import { scene } from '../testing/scenes.ts';

const ALL = configure();
/** The largest crop, but for the sky, that the photo turned by −3° leaves as wide as this; it could go down to 5907. */
const TURNED = { degrees: -3, left: 150, right: 3850, top: 1440, bottom: 5900 };

function found(frame: Frame): readonly Finding[] {
  return checkScene(scene(frame), ALL);
}

function related(frame: Frame): string[] {
  return found(frame).flatMap(({ related: facts = [] }) => facts.map(({ message }) => message));
}

describe('it speaks beside a finding', () => {
  const people = [standing({ headTop: 1870, toes: true })];

  test('where the photo went on before it was turned', () => {
    const [first] = found({ ...TURNED, people });
    expect(first).toMatchObject({ rule: 'foot-cut', edge: 'bottom' });
    expect(first?.related).toEqual([
      {
        rule: 'straighten-cost',
        message: expect.stringMatching(/^Straightening by −3° took \d+ px of room/) as string,
      },
    ]);
  });

  test('and never as a finding of its own', () => {
    expect(found({ ...TURNED, people }).map(({ rule }) => rule)).not.toContain('straighten-cost');
  });
});

describe('it is silent', () => {
  const people = [standing({ headTop: 1500, toes: true })];

  test('where the edge has room to open', () => {
    const cut = { ...TURNED, people, bottom: 5540 };
    expect(found(cut).map(({ rule }) => rule)).toContain('foot-cut');
    expect(related(cut)).toEqual([]);
  });

  test('where the photo was too short before', () => {
    const cut = { ...TURNED, people: [standing({ headTop: 1930, toes: true })] };
    expect(found(cut).map(({ edge }) => edge)).toContain('bottom');
    expect(related(cut)).toEqual([]);
  });

  test('where the crop lies outside the photo already', () => {
    const cut = { ...TURNED, people: [standing({ headTop: 1870, toes: true })], left: 0, right: 4000 };
    expect(found(cut).map(({ rule }) => rule)).toEqual(expect.arrayContaining(['outside-photo', 'foot-cut']));
    expect(related(cut)).toEqual([]);
  });

  test('in a picture that is not turned', () => {
    expect(related({ people: [standing({ headTop: 1990, toes: true })], top: 1700 })).toEqual([]);
  });
});
