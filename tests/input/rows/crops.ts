import { line, type Row } from './row.ts';

/** Crops that no frame can have, each in line 7. */
export const CROPS: readonly Row[] = [
  line(
    'crop: not a number',
    'crop: { x: .nan, y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x is .nan: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: infinity',
    'crop: { x: .inf, y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x is .inf: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: minus infinity',
    'crop: { x: -.inf, y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x is -.inf: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: a number beyond all numbers',
    'crop: { x: 0, y: 0, w: 1e999, h: 1 }',
    "crops.yaml:7:28  error  crop.w is 1e999: a width is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole width).  [manifest]",
  ),
  line(
    'crop: the largest number',
    'crop: { x: 1.7e308, y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x is 1.7e308: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: the smallest number',
    'crop: { x: 0, y: 0, w: 5e-324, h: 1 }',
    "crops.yaml:7:28  error  crop.w is 5e-324: a width is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole width).  [manifest]",
  ),
  line(
    'crop: a negative width',
    'crop: { x: 0, y: 0, w: -0.5, h: 1 }',
    "crops.yaml:7:28  error  crop.w is -0.5: a width is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole width).  [manifest]",
  ),
  line(
    'crop: no height',
    'crop: { x: 0, y: 0, w: 1, h: 0 }',
    "crops.yaml:7:34  error  crop.h is 0: a height is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole height).  [manifest]",
  ),
  line(
    'crop: minus zero',
    'crop: { x: 0, y: 0, w: 1, h: -0.0 }',
    "crops.yaml:7:34  error  crop.h is -0.0: a height is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole height).  [manifest]",
  ),
  line(
    'crop: wider than everything',
    'crop: { x: 0, y: 0, w: 3, h: 1 }',
    "crops.yaml:7:28  error  crop.w is 3: a width is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole width); if you mean 3 %, write 0.03.  [manifest]",
  ),
  line(
    'crop: far away',
    'crop: { x: -11, y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x is -11: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: outside the photo',
    'crop: { x: 9, y: 9, w: 1, h: 1 }',
    "crops.yaml:7:11  error  The crop goes past the photo's right and lower edges. Come in to the photo's edge.  [outside-photo]",
  ),
  line(
    'crop: text for a number',
    'crop: { x: "0.1", y: 0, w: 1, h: 1 }',
    'crops.yaml:7:16  error  crop.x is "0.1", not a number: a place is a fraction of the photo\'s width, at least −10 and at most 10 (0 is the photo\'s own edge); take the quotes off.  [manifest]',
  ),
  line(
    'crop: a word for a number',
    'crop: { x: wide, y: 0, w: 1, h: 1 }',
    'crops.yaml:7:16  error  crop.x is "wide", not a number: a place is a fraction of the photo\'s width, at least −10 and at most 10 (0 is the photo\'s own edge).  [manifest]',
  ),
  line(
    'crop: a comma for a point',
    'crop: { x: "0,1", y: 0, w: 1, h: 1 }',
    'crops.yaml:7:16  error  crop.x is "0,1", not a number: a place is a fraction of the photo\'s width, at least −10 and at most 10 (0 is the photo\'s own edge); numbers have a point, not a comma.  [manifest]',
  ),
  line(
    'crop: per cent',
    'crop: { x: 0, y: 0, w: 80, h: 1 }',
    "crops.yaml:7:28  error  crop.w is 80: a width is a fraction of the photo's, above 0 (at least 0.0001) and at most 2 (1 is the whole width); if you mean 80 %, write 0.8.  [manifest]",
  ),
  line(
    'crop: nothing for a number',
    'crop: { x: , y: 0, w: 1, h: 1 }',
    'crops.yaml:7:13  error  crop.x has no value: write one, such as 0.1.  [manifest]',
  ),
  line(
    'crop: null for a number',
    'crop: { x: null, y: 0, w: 1, h: 1 }',
    'crops.yaml:7:13  error  crop.x has no value: write one, such as 0.1.  [manifest]',
  ),
  line(
    'crop: true for a number',
    'crop: { x: true, y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x is true, not a number: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: a list for a number',
    'crop: { x: [0], y: 0, w: 1, h: 1 }',
    "crops.yaml:7:16  error  crop.x cannot be a list: a place is a fraction of the photo's width, at least −10 and at most 10 (0 is the photo's own edge).  [manifest]",
  ),
  line(
    'crop: a date for a number',
    'crop: { x: 2024-01-01, y: 0, w: 1, h: 1 }',
    'crops.yaml:7:16  error  crop.x is "2024-01-01", not a number: a place is a fraction of the photo\'s width, at least −10 and at most 10 (0 is the photo\'s own edge).  [manifest]',
  ),
  line(
    'crop: a list',
    'crop: [0, 0, 1, 1]',
    'crops.yaml:7:11  error  crop cannot be a list: a crop is { x: …, y: …, w: …, h: … } in fractions of the photo.  [manifest]',
  ),
  line(
    'crop: a number',
    'crop: 5',
    'crops.yaml:7:11  error  crop is 5: a crop is { x: …, y: …, w: …, h: … } in fractions of the photo.  [manifest]',
  ),
  line(
    'crop: half of it',
    'crop: { x: 0, y: 0 }',
    'crops.yaml:7:13  error  crop: w, h are missing: add w: 0.8, h: 0.8.  [manifest]',
  ),
  line(
    'crop: a misspelt member',
    'crop: { x: 0, y: 0, w: 1, hh: 1 }',
    'crops.yaml:7:13  error  crop: h is missing: add h: 0.8.  [manifest]',
    'crops.yaml:7:31  warning  "hh" is not a key that I know in crop. (Keys of your own begin with x-.)  [manifest]',
  ),
  line(
    'crop: a member twice',
    'crop: { x: 0, x: 0.5, y: 0, w: 1, h: 1 }',
    'crops.yaml:7:19  error  crop.x stands here twice: the first one counts. Remove one of them.  [manifest]',
  ),
  line(
    'crop: twice',
    'crop: { x: 0, y: 0, w: 1, h: 1 }\n    crop: { x: 0, y: 0, w: 1, h: 0.9 }',
    'crops.yaml:8:5  error  crop stands here twice: the first one counts. Remove one of them.  [manifest]',
  ),
];
