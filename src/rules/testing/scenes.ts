import type { Edges } from '../../geometry/shapes.ts';
import type { Configuration, GivenConfiguration } from '../configuration.ts';
import { configure } from '../configuration.ts';
import type { Finding } from '../finding.ts';
import { RULES } from '../index.ts';
import { checkScene } from '../report.ts';
import type { Scene, SceneInput } from '../scene.ts';
import { sceneOf } from '../scene.ts';
import { PHOTO } from '../../people/testing/standing.ts';

/** What a test says of its frame; edges in pixels of the turned picture. What it leaves out is as wide as the photo. */
export type Frame = Partial<Omit<SceneInput, 'crop'>> & Partial<Edges>;

/** A frame of the 4000 × 6000 test photo: unturned, of free shape, composed freely, with the whole photo as its crop. */
export function scene({ left, top, right, bottom, ...frame }: Frame): Scene {
  const photo = frame.photo ?? PHOTO;
  return sceneOf({
    degrees: 0,
    shape: undefined,
    composition: 'free',
    askedLength: undefined,
    people: [],
    subjects: undefined,
    ...frame,
    photo,
    crop: { left: left ?? 0, top: top ?? 0, right: right ?? photo.width, bottom: bottom ?? photo.height },
  });
}

/** Only this rule speaks, with what `given` sets for it. */
export function only(id: string, given: GivenConfiguration = {}): Configuration {
  return configure(new Map(RULES.map((rule) => [rule.id, rule.id === id ? given : { severity: 'off' }])));
}

export function findingsOf(id: string, frame: Frame, given: GivenConfiguration = {}): readonly Finding[] {
  return checkScene(scene(frame), only(id, given));
}

/** What one rule says of a frame, a finding as `1 left_knee bottom`, with `possibly` behind it when it is not sure. */
export function said(id: string, frame: Frame, given: GivenConfiguration = {}): string[] {
  return findingsOf(id, frame, given).map(({ person, joint, edge, possible }) =>
    [person, joint, edge, possible ? 'possibly' : undefined].filter((part) => part !== undefined).join(' '),
  );
}
