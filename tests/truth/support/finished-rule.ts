import type { Edges } from '../../../src/geometry/shapes.ts';
import type { Person } from '../../../src/people/person.ts';
import { configure } from '../../../src/rules/configuration.ts';
import { RULES } from '../../../src/rules/index.ts';
import { checkScene } from '../../../src/rules/report.ts';
import { sceneOf } from '../../../src/rules/scene.ts';
import { kindsAt, namesOf, type FinishedCut } from './finished-cuts.ts';

const JOINT_CUT = RULES.filter(({ id }) => id === 'joint-cut');
const configuration = configure();

/** Whether the rule finds one of the cut's joints cut by its edge when the cut picture is delivered as it is. */
export function jointCutSays(cut: FinishedCut, frame: Edges, person: Person): boolean {
  const photo = { width: frame.right - frame.left, height: frame.bottom - frame.top };
  const scene = sceneOf({
    photo,
    degrees: 0,
    crop: { left: 0, top: 0, right: photo.width, bottom: photo.height },
    shape: undefined,
    composition: 'free',
    askedLength: undefined,
    people: [person],
    subjects: undefined,
  });
  const names: readonly string[] = namesOf(kindsAt(cut));
  return checkScene(scene, configuration, JOINT_CUT).some(
    ({ edge, joint }) => edge === cut.edge && joint !== undefined && names.includes(joint),
  );
}
