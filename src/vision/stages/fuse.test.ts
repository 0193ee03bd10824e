import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chanceBeyond, chanceInside } from './calibration.ts';
import { fuseVotes } from './fuse.ts';

describe('fuseVotes', () => {
  it('stays with the three that agree when one has the other leg', () => {
    const votes = [
      { x: 100, y: 500, score: 0.6 },
      { x: 101, y: 502, score: 0.5 },
      { x: 99, y: 499, score: 0.6 },
      { x: 180, y: 430, score: 0.7 },
    ];
    const place = fuseVotes(votes, 800);
    expect(Math.hypot(place.x - 100, place.y - 500)).toBeLessThan(4);
  });

  it('moves with the votes', () => {
    const vote = fc.record({
      x: fc.integer({ min: 0, max: 900 }),
      y: fc.integer({ min: 0, max: 900 }),
      score: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(vote, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: -500, max: 500 }),
        (votes, shift) => {
          const place = fuseVotes(votes, 900);
          const moved = fuseVotes(votes.map((each) => ({ ...each, x: each.x + shift })), 900); // prettier-ignore
          expect(moved.x - place.x).toBeCloseTo(shift, 4);
          expect(moved.y).toBeCloseTo(place.y, 4);
        },
      ),
    );
  });
});

describe('confidence', () => {
  const sure = { score: 0.6, lookSpread: 0.003, wholeBodyApart: 0.003, wholeBodyScore: 1 };

  it('falls when the looks disagree, when the whole-body model does, and when scores are low', () => {
    const best = chanceInside('left_knee', sure);
    expect(best).toBeGreaterThan(0.95);
    expect(chanceInside('left_knee', { ...sure, lookSpread: 0.1 })).toBeLessThan(best);
    expect(chanceInside('left_knee', { ...sure, wholeBodyApart: 0.1 })).toBeLessThan(best);
    expect(chanceInside('left_knee', { ...sure, score: 0.1 })).toBeLessThan(best);
    expect(
      chanceInside('left_ankle', { score: 0.05, lookSpread: 0.1, wholeBodyApart: 0.1, wholeBodyScore: 0.2 }),
    ).toBeLessThan(0.4);
  });

  it('is less easily firm for arms', () => {
    const fair = { score: 0.3, lookSpread: 0.02, wholeBodyApart: 0.02, wholeBodyScore: 0.5 };
    expect(chanceInside('left_elbow', fair)).toBeLessThan(chanceInside('left_knee', fair));
  });

  it('falls beyond the edge when a leg would be of another length than most', () => {
    const near = { score: 0.2, apart: 0.05, beyond: 0.05 };
    const like = chanceBeyond('left_knee', { ...near, unexpected: 0.01 });
    const unlike = chanceBeyond('left_knee', { ...near, unexpected: 0.1 });
    expect(unlike).toBeLessThan(like);
  });

  it('is never firm beyond the edge', () => {
    expect(chanceBeyond('left_elbow', { score: 1, apart: 0, beyond: 0.001 })).toBe(0.65);
    expect(chanceBeyond('left_ankle', { score: 0.1, apart: 0.2, beyond: 0.3 })).toBeLessThan(0.4);
  });
});
