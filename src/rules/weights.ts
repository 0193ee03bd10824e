/**
 * What a broken limit costs in the search: face above joint, hand and foot, above headroom, above edges. The steps are
 * so wide that no number of lighter limits outweighs a heavier one in pictures of a dozen people.
 */
export const WEIGHT = {
  /** What is whole in the present crop, where a search must not break it. */
  kept: 1e10,
  shape: 1e9,
  face: 1e8,
  /** A body cut lengthwise. */
  body: 1e7,
  joint: 1e6,
  /** Hands and feet yield to joints. */
  extremity: 1e5,
  headroom: 1e3,
  edge: 10,
  print: 1,
} as const;

/** A place that is only possibly there weighs this share. */
export const POSSIBLE_SHARE = 0.2;
