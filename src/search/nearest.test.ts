import { describe, expect, test } from 'vitest';
import { generatedScene, mirrored } from '../../tests/scenes/generate.ts';
import { edgesOf } from '../geometry/shapes.ts';
import type { Person } from '../people/person.ts';
import { PROPORTIONS } from '../people/proportions.ts';
import { configure } from '../rules/configuration.ts';
import { checkScene } from '../rules/report.ts';
import type { Scene, SceneInput } from '../rules/scene.ts';
import { sceneOf, withCrop } from '../rules/scene.ts';
import { ladder, nearestCrop, reasonWithoutCrop } from './index.ts';

const CONFIGURATION = configure();
const PHOTO = { width: 2000, height: 3000 };
const SEEDS = Array.from({ length: 60 }, (_, index) => 1000 + index);

/** Somebody who stands upright, arms a little off the body, of that height in pixels, head top at `top`. */
function standing(id: number, x: number, top: number, height: number): Person {
  const at = (across: number, down: number) => ({
    x: (x + across * height) / PHOTO.width,
    y: (top + down * height) / PHOTO.height,
    confidence: 1,
  });
  const eyes = PROPORTIONS.eyesToHeadTop;
  const shoulder = eyes + PROPORTIONS.eyesToShoulder;
  const hip = shoulder + PROPORTIONS.shoulderToHip;
  const knee = hip + PROPORTIONS.hipToKnee;
  const ankle = knee + PROPORTIONS.kneeToAnkle;
  return {
    id,
    source: 'hand',
    box: [(x - 0.15 * height) / PHOTO.width, top / PHOTO.height, (0.3 * height) / PHOTO.width, height / PHOTO.height],
    headTop: at(0, 0),
    points: {
      nose: at(0, eyes + 0.02),
      left_eye: at(0.015, eyes),
      right_eye: at(-0.015, eyes),
      left_shoulder: at(0.11, shoulder),
      right_shoulder: at(-0.11, shoulder),
      left_elbow: at(0.14, shoulder + 0.18),
      right_elbow: at(-0.14, shoulder + 0.18),
      left_wrist: at(0.15, shoulder + 0.32),
      right_wrist: at(-0.15, shoulder + 0.32),
      left_hip: at(0.08, hip),
      right_hip: at(-0.08, hip),
      left_knee: at(0.08, knee),
      right_knee: at(-0.08, knee),
      left_ankle: at(0.08, ankle),
      right_ankle: at(-0.08, ankle),
      left_big_toe: at(0.1, 0.995),
      right_big_toe: at(-0.1, 0.995),
      left_heel: at(0.07, 1),
      right_heel: at(-0.07, 1),
    },
  };
}

function sceneWith(change: Partial<SceneInput>): Scene {
  return sceneOf({
    photo: PHOTO,
    degrees: 0,
    crop: { left: 0, top: 0, right: 2000, bottom: 3000 },
    shape: 2 / 3,
    composition: 'centred',
    askedLength: undefined,
    people: [standing(1, 1000, 300, 2400)],
    subjects: undefined,
    ...change,
  });
}

function pressing(scene: Scene): string[] {
  return checkScene(scene, CONFIGURATION)
    .filter(({ severity }) => severity !== 'info')
    .map(({ message }) => message);
}

describe('the nearest crop', () => {
  test('of a clean crop is that crop', () => {
    const answer = nearestCrop(sceneWith({}), CONFIGURATION)!;
    expect(answer.broken).toEqual([]);
    expect(answer.crop).toEqual({ x: 0, y: 0, w: 1, h: 1 });
  });

  test('comes away from a knee, and the rules agree', () => {
    const { people } = sceneWith({});
    const knee = people[0]!.points.left_knee!.y * PHOTO.height;
    const scene = sceneWith({ crop: { left: 300, top: knee - 1950, right: 1600, bottom: knee } });
    expect(pressing(scene).join(' ')).toContain('knee');
    const answer = nearestCrop(scene, CONFIGURATION)!;
    expect(answer.broken).toEqual([]);
    expect(pressing(withCrop(scene, answer.edges))).toEqual([]);
    expect((answer.crop.w * PHOTO.width) / (answer.crop.h * PHOTO.height)).toBeCloseTo(2 / 3, 2);
  });

  test('repairs a grazed head on top and bottom together when it comes in', () => {
    // The top runs through the hair, and the photo ends there: only coming in to a close-up helps.
    const scene = sceneWith({
      people: [standing(1, 1000, 20, 2900)],
      crop: { left: 0, top: 0, right: 2000, bottom: 3000 },
    });
    expect(pressing(scene).join(' ')).toContain('head');
    const answer = nearestCrop(scene, CONFIGURATION)!;
    expect(answer.broken).toEqual([]);
    expect(answer.edges.top).toBeGreaterThan(scene.crop.top);
    expect(answer.edges.bottom).toBeLessThan(scene.crop.bottom);
    expect(pressing(withCrop(scene, answer.edges))).toEqual([]);
  });

  test('finds the way back to the faces where none is shown', () => {
    const headless = sceneWith({ crop: { left: 300, top: 1300, right: 1300, bottom: 2800 } });
    expect(pressing(headless).join(' ')).toContain('without their face');
    const elsewhere = sceneWith({ crop: { left: 0, top: 0, right: 600, bottom: 900 } });
    expect(pressing(elsewhere)).toContain(
      'No subject’s face is in the crop. Move or open it until a whole face is in.',
    );
    for (const scene of [headless, elsewhere]) {
      const answer = nearestCrop(scene, CONFIGURATION)!;
      expect(answer.broken).toEqual([]);
      expect(pressing(withCrop(scene, answer.edges))).toEqual([]);
    }
  });

  test('does not cut somebody lengthwise to keep another whole', () => {
    const people = [standing(1, 600, 500, 2300), standing(2, 1450, 500, 2300)];
    const scene = sceneWith({ people, crop: { left: 100, top: 300, right: 1400, bottom: 2250 } });
    expect(checkScene(scene, CONFIGURATION).map(({ rule }) => rule)).toContain('edge-along-body');
    const answer = nearestCrop(scene, CONFIGURATION)!;
    expect(answer.broken).toEqual([]);
    const isWhole = answer.edges.right > 1450 + 0.11 * 2300;
    const isOut = answer.edges.right < 1450 - 0.11 * 2300;
    expect(isWhole || isOut, `right edge at ${answer.edges.right}`).toBe(true);
  });

  test('shows the face of somebody who is no subject whole, or not at all', () => {
    const people = [standing(1, 700, 300, 2400), standing(2, 1250, 300, 2400)];
    const { crop } = sceneWith({});
    const knee = people[0]!.points.left_knee!.y * PHOTO.height;
    for (const right of [1180, 1220, 1260]) {
      const start = { ...crop, right, bottom: knee };
      const scene = sceneWith({ people, subjects: [1], shape: undefined, crop: start });
      const { edges } = nearestCrop(scene, CONFIGURATION)!;
      const face = scene.figures[1]!.face!.box;
      const isCut = edges.right > face.left + 1 && edges.right < face.right - 1;
      expect(isCut, `from ${right}: ${edges.right} between ${face.left} and ${face.right}`).toBe(false);
    }
  });

  test('keeps away from a joint by what measuring can be wrong, unless that takes it far', () => {
    const measured: Person[] = sceneWith({}).people.map((person) => ({ ...person, source: 'model' }));
    const knee = measured[0]!.points.left_knee!.y * PHOTO.height;
    const crop = { left: 300, top: knee - 1950, right: 1600, bottom: knee };
    const ofHand = nearestCrop(sceneWith({ crop }), CONFIGURATION)!;
    const ofModel = nearestCrop(sceneWith({ crop, people: measured }), CONFIGURATION)!;
    expect(ofModel.broken).toEqual([]);
    expect(ofModel.cost).toBeGreaterThan(ofHand.cost);
    expect(ofModel.cost).toBeLessThan(ofHand.cost + 0.1);
  });

  test('says why a rule cannot be met', () => {
    // The photo's lower edge runs just under the ankles, and only wider crops are asked for.
    const scene = sceneWith({ people: [standing(1, 1000, 1000, 2040)] });
    const ankle = scene.figures[0]!.points.left_ankle!.y;
    const answer = nearestCrop(scene, CONFIGURATION, { direction: 'wider' })!;
    const room = Math.round(PHOTO.height - ankle);
    expect(answer.broken.find(({ joint }) => joint === 'left_ankle')?.reason()).toBe(
      `the photo ends ${room} px under the left ankle of person 1, and a crop clear of the left ankle of person 1 lies the other way`,
    );
  });

  test('never drops a face, and says when no crop holds all of them', () => {
    const people = [standing(1, 300, 300, 2400), standing(2, 1700, 300, 2400)];
    const scene = sceneWith({ people, shape: 1 / 3, crop: { left: 0, top: 0, right: 2000, bottom: 3000 } });
    expect(nearestCrop(scene, CONFIGURATION)).toBeUndefined();
    expect(reasonWithoutCrop(scene, CONFIGURATION)).toBe('no crop of that shape holds every face');
  });

  test('leaves alone what the frame allows', () => {
    const { people } = sceneWith({});
    const knee = people[0]!.points.left_knee!.y * PHOTO.height;
    const scene = sceneWith({ crop: { left: 300, top: knee - 1950, right: 1600, bottom: knee } });
    const allow = [...new Set(checkScene(scene, CONFIGURATION).map(({ rule }) => rule))];
    const answer = nearestCrop(scene, CONFIGURATION, { allow })!;
    expect(answer.edges.bottom).toBeCloseTo(knee, 0);
  });

  test('stays inside the present crop when it is to be tighter', () => {
    const { people } = sceneWith({});
    const knee = people[0]!.points.left_knee!.y * PHOTO.height;
    const scene = sceneWith({ crop: { left: 300, top: knee - 1950, right: 1600, bottom: knee } });
    const { edges } = nearestCrop(scene, CONFIGURATION, { direction: 'tighter' })!;
    expect(edges.left).toBeGreaterThanOrEqual(scene.crop.left - 0.3);
    expect(edges.top).toBeGreaterThanOrEqual(scene.crop.top - 0.3);
    expect(edges.right).toBeLessThanOrEqual(scene.crop.right + 0.3);
    expect(edges.bottom).toBeLessThanOrEqual(scene.crop.bottom + 0.3);
  });

  test('what is reported as broken is what the rules say of the written crop', () => {
    for (const seed of SEEDS) {
      const scene = sceneOf(generatedScene(seed));
      const answer = nearestCrop(scene, CONFIGURATION);
      if (!answer) continue;
      const found = pressing(withCrop(scene, answer.edges));
      expect(found.length > 0, `seed ${seed}: ${found.join(' ')}`).toBe(answer.broken.length > 0);
      for (const { reason } of answer.broken) expect(reason().length).toBeGreaterThan(10);
    }
  });

  test('a second search changes nothing', () => {
    for (const seed of SEEDS) {
      const scene = sceneOf(generatedScene(seed));
      const first = nearestCrop(scene, CONFIGURATION);
      if (!first) continue;
      const second = nearestCrop(withCrop(scene, first.edges), CONFIGURATION);
      expect(second?.crop, `seed ${seed}`).toEqual(first.crop);
    }
  });

  test('a mirrored scene gives the mirrored crop', () => {
    for (const seed of SEEDS) {
      const input = generatedScene(seed);
      const answer = nearestCrop(sceneOf(input), CONFIGURATION);
      const other = nearestCrop(sceneOf(mirrored(input)), CONFIGURATION);
      expect(other === undefined, `seed ${seed}`).toBe(answer === undefined);
      if (!answer || !other) continue;
      const step = input.photo.width / 10_000;
      expect(Math.abs(input.photo.width - other.edges.right - answer.edges.left), `seed ${seed}`).toBeLessThan(
        2 * step,
      );
      expect(Math.abs(input.photo.width - other.edges.left - answer.edges.right), `seed ${seed}`).toBeLessThan(
        2 * step,
      );
      expect(Math.abs(other.edges.top - answer.edges.top)).toBeLessThan(
        2 * step * (input.photo.height / input.photo.width),
      );
    }
  });
});

describe('the ladder', () => {
  test('has one rung per length, each of that length', () => {
    const scene = sceneWith({});
    const rungs = ladder(scene, CONFIGURATION, { minimumShortSide: 300 });
    expect(rungs.map(({ length }) => length)).toEqual([
      'full-length',
      'three-quarter',
      'half-length',
      'head-and-shoulders',
      'close-up',
    ]);
    for (const { length, answer } of rungs) {
      expect(answer.crop, length).not.toBeUndefined();
      expect(edgesOf(answer.crop, PHOTO).bottom).toBeCloseTo(answer.edges.bottom, 6);
      if (length !== 'close-up') expect(withCrop(scene, answer.edges).length, length).toBe(length);
    }
  });
});
