import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Size } from '../../src/geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from '../../src/people/person.ts';
import { BODY_POINTS, FOOT_POINTS, type HandPoint, type PointName, type Side } from '../../src/people/points.ts';
import { DEMO_PHOTOS, LABELLED_PHOTOS } from './shared.ts';

type Points = Partial<Record<PointName, MeasuredPoint>>;

interface CocoImage {
  id: number;
  file_name: string;
  width: number;
  height: number;
}

interface CocoPerson {
  image_id: number;
  keypoints: number[];
  num_keypoints: number;
  bbox: [number, number, number, number];
  iscrowd?: number;
}

interface DemoPerson {
  image_id: number;
  person_index: number;
  bbox: [number, number, number, number];
  full_extent_projected: [number, number, number, number];
  keypoints_projected: [number, number][];
  foot_projected: [number, number][];
  hands_projected: Record<Side, Record<string, [number, number, number]>>;
  head_top_visible: [number, number] | null;
  head_top: [number, number];
}

/** COCO 2017 validation photographs (Lin et al., 2014) as people files say it; visibility 1 and 2 are both labelled. */
export function cocoPeople(): PhotoPeople[] {
  const data = JSON.parse(readFileSync(join(LABELLED_PHOTOS, 'test_coco.json'), 'utf8')) as {
    images: CocoImage[];
    annotations: CocoPerson[];
  };
  return data.images.map((image) => ({
    photo: image.file_name,
    size: { width: image.width, height: image.height },
    people: data.annotations
      .filter((person) => person.image_id === image.id && person.num_keypoints > 0 && !person.iscrowd)
      .map((person, index) => personOf(index + 1, image, person.bbox, cocoPoints(image, person.keypoints))),
  }));
}

function cocoPoints(image: CocoImage, keypoints: readonly number[]): Points {
  const points: Points = {};
  BODY_POINTS.forEach((name, index) => {
    const [x, y, visibility] = keypoints.slice(index * 3, index * 3 + 3);
    if (visibility) points[name] = { x: x! / image.width, y: y! / image.height, confidence: 1 };
  });
  return points;
}

/** Our own rendered pictures with labels computed from the figures: every joint, also beyond the frame. */
export function demoPeople(): PhotoPeople[] {
  const data = JSON.parse(readFileSync(join(DEMO_PHOTOS, 'labels.json'), 'utf8')) as {
    images: CocoImage[];
    annotations: DemoPerson[];
  };
  return data.images.map((image) => ({
    photo: image.file_name,
    size: { width: image.width, height: image.height },
    people: data.annotations
      .filter((person) => person.image_id === image.id)
      .map((person) => {
        const top = person.head_top_visible ?? person.head_top;
        return {
          ...personOf(person.person_index, image, person.bbox, demoPoints(image, person)),
          headTop: { x: top[0] / image.width, y: top[1] / image.height, confidence: 1 },
        };
      }),
  }));
}

function demoPoints(image: CocoImage, person: DemoPerson): Points {
  const points: Points = {};
  const put = (name: PointName, place: readonly number[]) => {
    points[name] = { x: place[0]! / image.width, y: place[1]! / image.height, confidence: 1 };
  };
  BODY_POINTS.forEach((name, index) => {
    put(name, person.keypoints_projected[index]!);
  });
  FOOT_POINTS.forEach((name, index) => {
    put(name, person.foot_projected[index]!);
  });
  for (const side of ['left', 'right'] as const) {
    const fingers = {
      thumb: 'thumb',
      index: 'forefinger',
      middle: 'middle_finger',
      ring: 'ring_finger',
      pinky: 'pinky_finger',
    };
    for (const [short, finger] of Object.entries(fingers)) {
      const hand = person.hands_projected[side];
      put(`${side}_${finger}2` as HandPoint, hand[`${short}_mcp`]!);
      put(`${side}_${finger}4` as HandPoint, hand[`${short}_tip`]!);
    }
  }
  return points;
}

function personOf(id: number, image: Size, bbox: readonly [number, number, number, number], points: Points): Person {
  const [x, y, w, h] = bbox;
  return {
    id,
    source: 'hand',
    box: [x / image.width, y / image.height, w / image.width, h / image.height],
    points,
  };
}
