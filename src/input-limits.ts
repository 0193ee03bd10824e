/** How much of something is taken at most. */
export interface InputLimit {
  readonly most: number;
  /** What is counted. */
  readonly unit: string;
  readonly of: string;
  /** What happens beyond it. */
  readonly beyond: string;
}

/**
 * Every limit on what a session may bring, in one table; docs/security.md shows it (`npm run generate`). It stands
 * outside the rooms: every room may read it. The numbers are our own choice: far above any real session, far below what
 * would fill a machine.
 */
export const INPUT_LIMITS = {
  manifestBytes: {
    most: 16_000_000,
    unit: 'bytes',
    of: 'a manifest',
    beyond: 'the manifest is not read',
  },
  manifestFrames: {
    most: 50_000,
    unit: 'frames',
    of: 'a manifest',
    beyond: 'the manifest is not used',
  },
  aliases: {
    most: 100,
    unit: 'aliases',
    of: 'a frame, or the head of a manifest',
    beyond: 'the value is left out and told',
  },
  peopleFileBytes: {
    most: 256_000_000,
    unit: 'bytes',
    of: 'a people file',
    beyond: 'the people file is not read',
  },
  peopleFileLines: {
    most: 100_000,
    unit: 'lines',
    of: 'a people file',
    beyond: 'the lines after it are not used; they are kept',
  },
  peopleLineCharacters: {
    most: 2_000_000,
    unit: 'characters',
    of: 'a line of a people file',
    beyond: 'the line is not used; it is kept',
  },
  peopleInPhoto: {
    most: 100,
    unit: 'people',
    of: 'a photo',
    beyond: 'the line is not used; it is kept',
  },
  outlinePoints: {
    most: 1000,
    unit: 'points',
    of: 'an outline in a people file',
    beyond: 'the line is not used; it is kept',
  },
  outlineGaps: {
    most: 100,
    unit: 'gaps',
    of: 'an outline in a people file',
    beyond: 'the line is not used; it is kept',
  },
  peopleProblems: {
    most: 20,
    unit: 'messages',
    of: 'a people file',
    beyond: 'the rest is counted in one message',
  },
  shardBytes: {
    most: 256_000_000,
    unit: 'bytes',
    of: 'a shard’s JSON',
    beyond: 'the shard is not read',
  },
  photoPixels: {
    most: 400_000_000,
    unit: 'pixels',
    of: 'a photo',
    beyond: 'the photo is not decoded',
  },
  photoEdge: {
    most: 100_000,
    unit: 'pixels',
    of: 'an edge of a photo',
    beyond: 'the photo is not decoded',
  },
  photoBytes: {
    most: 4_000_000_000,
    unit: 'bytes',
    of: 'a photo’s file',
    beyond: 'the photo is not read',
  },
  rawPreviewBytes: {
    most: 200_000_000,
    unit: 'bytes',
    of: 'the preview in a camera raw file',
    beyond: 'a smaller preview is looked for',
  },
  rawDirectories: {
    most: 32,
    unit: 'directories',
    of: 'a camera raw file',
    beyond: 'the rest is not looked at',
  },
  measureSeconds: {
    most: 300,
    unit: 'seconds',
    of: 'measuring one photo',
    beyond: 'the workroom is ended; the photo is told as not measured',
  },
} satisfies Readonly<Record<string, InputLimit>>;
