import { edgesOf, type Rectangle } from '../../geometry/shapes.ts';
import { orientationOf, parseRatio, shapeOf } from '../../geometry/ratio.ts';
import type { Length } from '../../people/lengths.ts';
import { readPeopleLine } from '../../people/people-line.ts';
import type { Finding } from '../finding.ts';
import type { Composition, Print, Scene } from '../scene.ts';
import { sceneOf } from '../scene.ts';

export const HEADINGS = [
  'What it sees',
  'Why it matters',
  'Drawn example',
  'Example',
  'Settings',
  'When to allow it',
  'Value and limit',
] as const;

/** The example scene of a page: people as the people file has them, crops as the manifest has them. */
export interface Example {
  readonly photo: readonly [number, number];
  readonly straighten?: number;
  readonly aspect?: string;
  readonly compose?: Composition;
  readonly length?: Length;
  readonly print?: Print;
  readonly crop: Rectangle;
  readonly people: readonly unknown[];
  /** What is said of the crop: `rule joint edge`. */
  readonly expect: readonly string[];
  readonly tilt?: unknown;
  readonly horizon?: unknown;
  readonly symmetry?: unknown;
  /** A crop of which nothing is said, where needed in a picture that is turned otherwise. */
  readonly clean: TurnedCrop;
}

type TurnedCrop = Rectangle & { readonly straighten?: number };

/** The parts of a page by heading; what stands before the first one under the title. */
export function sectionsOf(page: string): { title: string; summary: string; sections: Map<string, string> } {
  const [top = '', ...parts] = page.split(/^## /m);
  const [title = '', ...rest] = top.split('\n');
  const sections = parts.map((part): [string, string] => {
    const end = part.indexOf('\n');
    return [part.slice(0, end), part.slice(end).trim()];
  });
  return { title: title.replace(/^# /, ''), summary: rest.join(' ').trim(), sections: new Map(sections) };
}

/** The scene of an example with one of its two crops. */
export function sceneOfExample(example: Example, crop: TurnedCrop): Scene {
  const [width, height] = example.photo;
  const photo = { width, height };
  const { people, tilt, horizon, symmetry } = example;
  const line = readPeopleLine(
    JSON.stringify({ photo: 'example.jpg', size: example.photo, people, tilt, horizon, symmetry }),
  );
  if ('fault' in line) throw new Error(`The people of the example: ${line.fault}.`);
  const edges = edgesOf(crop, photo);
  const ratio = example.aspect === undefined ? undefined : parseRatio(example.aspect);
  return sceneOf({
    photo,
    degrees: crop.straighten ?? example.straighten ?? 0,
    crop: edges,
    shape: ratio && shapeOf(ratio, orientationOf(edges, 'upright')),
    composition: example.compose ?? 'free',
    askedLength: example.length,
    people: line.photo.people,
    subjects: undefined,
    tilt: line.photo.tilt,
    horizon: line.photo.horizon,
    symmetry: line.photo.symmetry,
    ...(example.print && { print: example.print }),
  });
}

/** A finding as an example names it; what another rule adds to it is named first: `straighten-cost: foot-cut …`. */
export function nameOf({ rule, joint, edge, related = [] }: Finding): string {
  const added = related.map((fact) => `${fact.rule}:`);
  return [...added, rule, joint, edge].filter((part) => part !== undefined).join(' ');
}
