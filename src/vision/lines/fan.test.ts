import { describe, expect, test } from 'vitest';
import { normal, randomNumbers } from '../testing/chart.ts';
import { DEGREE, leanAt } from './fan-shape.ts';
import { strongestFan } from './fan-vote.ts';
import type { LeaningLine } from './leaning-line.ts';
import { confidenceOf, together, uprightWitness, type Witness } from './witness.ts';

const ANSWER = 0.5;

function line(random: () => number, lean: number): LeaningLine {
  const length = 0.04 + 0.25 * random() ** 2;
  return { across: 0.9 * (random() - 0.5), along: 0.6 * (random() - 0.5), length, lean, error: 0.05 * DEGREE };
}

describe('the strongest fan', () => {
  test('is found among lines that lean at random, with its convergence', () => {
    const random = randomNumbers(3);
    const fan = { lean: 3 * DEGREE, convergence: 0.1 };
    const lines = Array.from({ length: 30 }, (_, index) => {
      const own = line(random, 0);
      const lean = index % 3 === 0 ? 30 * DEGREE * (random() - 0.5) : leanAt(fan, own) + 0.2 * DEGREE * normal(random);
      return { ...own, lean };
    });
    const found = strongestFan(lines)!;
    expect(Math.abs(found.lean - fan.lean)).toBeLessThan(0.3 * DEGREE);
    expect(Math.abs(found.convergence - fan.convergence)).toBeLessThan(0.03);
    expect(confidenceOf(uprightWitness(found))).toBeGreaterThan(ANSWER);
  });

  // Trunks of a wood: more or less upright, each leaning by itself.
  test.each([3, 6, 12, 25])('of %i lines that lean by themselves hardly ever makes an answer', (count) => {
    const random = randomNumbers(count);
    let answers = 0;
    for (let round = 0; round < 100; round++) {
      const lines = Array.from({ length: count }, () => line(random, 5 * DEGREE * normal(random)));
      if (confidenceOf(uprightWitness(strongestFan(lines)!)) >= ANSWER) answers += 1;
    }
    expect(answers).toBeLessThanOrEqual(2);
  });

  test('of no lines is none', () => {
    expect(strongestFan([])).toBeUndefined();
  });
});

describe('witnesses together', () => {
  const one: Witness = { lean: 1 * DEGREE, error: 0.2 * DEGREE, trust: 0.8 };

  test('that agree are surer than one, and lean between them', () => {
    const both = together([one, { ...one, lean: 1.2 * DEGREE }], [])!;
    expect(both.lean / DEGREE).toBeGreaterThan(1);
    expect(both.lean / DEGREE).toBeLessThan(1.2);
    expect(confidenceOf(both)).toBeGreaterThan(confidenceOf(one));
  });

  test('that contradict each other are no answer', () => {
    expect(confidenceOf(together([one, { ...one, lean: 4 * DEGREE }], [])!)).toBeLessThan(0.2);
  });

  test('that only support never lead, and never cast doubt', () => {
    expect(together([], [one])).toBeUndefined();
    expect(together([one], [{ ...one, lean: -5 * DEGREE }])).toEqual(one);
  });
});
