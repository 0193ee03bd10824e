import { expect, it } from 'vitest';
import { drag, WHOLE } from '../../geometry/drag.ts';
import { edgesOf, heightOf, widthOf } from '../../geometry/shapes.ts';
import { configure } from '../../rules/configuration.ts';
import type { MatFrame } from '../messages.ts';
import { FrameOnMat } from './frame-on-mat.ts';

const PHOTO = { width: 4000, height: 6000 };
const CROP = { left: 1000, top: 1000, right: 3000, bottom: 4000 };

function frame(given: Partial<MatFrame['input']> = {}, others: Partial<MatFrame> = {}): MatFrame {
  return {
    revision: 1,
    name: 'a.jpg',
    place: '1 of 1',
    output: undefined,
    whyNone: undefined,
    outputs: [],
    input: {
      photo: PHOTO,
      degrees: 0,
      crop: CROP,
      shape: undefined,
      composition: 'free',
      askedLength: undefined,
      people: [],
      subjects: undefined,
      ...given,
    },
    isPaperShape: false,
    configuration: [...configure()],
    allow: [],
    isFinal: false,
    isMeasured: true,
    aboutFiles: [],
    aboutOutputs: [],
    measuredLevel: undefined,
    saved: undefined,
    canTakeBack: false,
    ...others,
  };
}

it('a crop that is moved against the photo’s edge has not changed', () => {
  const on = new FrameOnMat(frame({ crop: { left: 0, top: 0, right: 4000, bottom: 6000 } }));
  const options = { photo: PHOTO, degrees: 0, shape: undefined };
  on.move(drag(on.scene.crop, WHOLE, { x: -6, y: 0 }, options), false);
  expect(on.isChanged).toBe(false);
  on.move(drag(on.scene.crop, ['left'], { x: 6, y: 0 }, options), false);
  expect(on.isChanged).toBe(true);
});

it('turning to and fro before letting go loses nothing', () => {
  const on = new FrameOnMat(frame({ crop: { left: 0, top: 0, right: 4000, bottom: 6000 } }));
  on.turn(10);
  expect(widthOf(on.scene.crop)).toBeLessThan(3500);
  on.turn(0);
  expect(on.scene.crop).toEqual(on.was.crop);
  expect(on.isChanged).toBe(false);
});

it('what is drawn is what is written: degrees of two decimals, a crop that lies in the photo', () => {
  const on = new FrameOnMat(frame());
  on.turn(1.23456);
  expect(on.scene.degrees).toBe(1.23);
  expect(on.findings().map(({ rule }) => rule)).not.toContain('outside-photo');
});

it('the kept shape does not creep however often something is let go, though numbers are rounded each time', () => {
  let on = new FrameOnMat(frame());
  const shape = on.keptShape;
  for (let round = 0; round < 40; round++) {
    const options = { photo: PHOTO, degrees: 0, shape: on.keptShape };
    on.move(drag(on.scene.crop, ['right', 'bottom'], { x: round % 2 === 0 ? -131.7 : 117.3, y: 0 }, options), true);
    // Let go: the text has the rounded numbers, and the mat is shown them.
    on = new FrameOnMat(frame({ crop: edgesOf(on.written, PHOTO) }), on);
  }
  expect(on.keptShape).toBe(shape);
});

it('a paper is held as the crop is held, while it is dragged as when it is let go', () => {
  const upright = frame({ shape: 4 / 5, crop: { left: 0, top: 0, right: 2000, bottom: 2500 } }, { isPaperShape: true });
  const on = new FrameOnMat(upright);
  on.move({ left: 0, top: 0, right: 2500, bottom: 2000 }, false);
  expect(on.scene.shape).toBeCloseTo(5 / 4);
  expect(on.keptShape).toBeCloseTo(5 / 4);
  expect(on.findings().map(({ rule }) => rule)).not.toContain('aspect');
});

it('with the shape kept a drag never turns the crop, however far it goes', () => {
  const on = new FrameOnMat(frame({ shape: 4 / 5, crop: { left: 0, top: 0, right: 2000, bottom: 2500 } }, { isPaperShape: true })); // prettier-ignore
  const options = { photo: PHOTO, degrees: 0, shape: on.keptShape };
  on.move(drag(on.scene.crop, ['bottom'], { x: 0, y: -2400 }, options), true);
  expect(widthOf(on.scene.crop) / heightOf(on.scene.crop)).toBeCloseTo(4 / 5);
  const again = new FrameOnMat(frame({ shape: 5 / 4, crop: edgesOf(on.written, PHOTO) }, { isPaperShape: true }), on);
  expect(again.keptShape).toBeCloseTo(4 / 5);
});

it('a text that was changed elsewhere has its own shape', () => {
  const on = new FrameOnMat(frame());
  expect(on.keptShape).toBeCloseTo(2 / 3);
  const typed = new FrameOnMat(frame({ crop: { left: 0, top: 0, right: 4000, bottom: 4000 } }), on);
  expect(typed.keptShape).toBe(1);
});
