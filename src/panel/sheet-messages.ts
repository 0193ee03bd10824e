import { INPUT_LIMITS } from '../input-limits.ts';
import type { EdgeName } from '../geometry/shapes.ts';
import type { Length } from '../people/lengths.ts';
import type { Severity } from '../rules/rule.ts';

/** Goes up with every change; both ends must have the same. */
export const SHEET_PROTOCOL = 3;

export interface SheetFinding {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly edge?: EdgeName;
}

/** One frame on the contact sheet. All text is plain. */
export interface SheetFrame {
  /** Place in the manifest's `frames`. */
  readonly index: number;
  readonly name: string;
  /** Width over height of the crop; absent while nobody knows the photo's size. */
  readonly shape?: number;
  readonly length?: Length;
  /** Those that count; absent when nobody was measured. */
  readonly people?: number;
  readonly isFinal: boolean;
  /** What no `allow` covers. */
  readonly findings: readonly SheetFinding[];
  /** The same while the picture is the same. */
  readonly picture: string;
}

/** A frame that a fix would change. */
export interface ReviewRow {
  readonly index: number;
  readonly name: string;
  /** Sum of the four edges' moves over the photo's diagonal. */
  readonly moved: number;
  /** Width over height, before and after. */
  readonly shapes: readonly [number, number];
  /** Names of both pictures; see SheetFrame. */
  readonly before: string;
  readonly after: string;
  /** Where another length is shown: "from full length to half length"; `isCloser` where that shows less of the person. */
  readonly length?: { readonly words: string; readonly isCloser: boolean };
  /** Where somebody is not in the picture any more: "leaves out person 2". */
  readonly leftOut?: string;
  /** Rules that are content afterwards. */
  readonly mended: readonly string[];
}

/** Something that no fix can do. */
export interface ReviewRest {
  /** Absent when it is about the session as a whole. */
  readonly index?: number;
  readonly name: string;
  readonly finding: SheetFinding;
  readonly reason?: string;
}

/** What a fix would do; nothing is written yet. */
export interface SheetReview {
  /** Furthest moved first. */
  readonly rows: readonly ReviewRow[];
  readonly needsYou: readonly ReviewRest[];
  /** Something that must be said first. */
  readonly notice?: string;
}

export type ToSheet =
  | {
      readonly kind: 'session';
      readonly protocol: number;
      /** Of the list of frames: what the sheet asks for is meant of this list. */
      readonly revision: number;
      readonly name: string;
      readonly frames: readonly SheetFrame[];
    }
  /** The list is the same, but these of its frames are not; whatever is seen may have other pictures. */
  | { readonly kind: 'changed'; readonly frames: readonly SheetFrame[] }
  /** The outputs that the session has, and the one whose crops are shown; absent: the main crops. */
  | { readonly kind: 'outputs'; readonly ids: readonly string[]; readonly shown?: string | undefined }
  /** Without an address: there is none to be had. */
  | { readonly kind: 'picture'; readonly picture: string; readonly address?: string }
  /** Frames with something that no fix can do. Absent: it is being worked out. */
  | { readonly kind: 'needs-you'; readonly indices?: readonly number[] }
  | { readonly kind: 'review'; readonly review: SheetReview }
  | { readonly kind: 'review-end' }
  /** Something was done, or not. */
  | { readonly kind: 'told'; readonly text: string }
  /** There is nothing to show, and why. */
  | { readonly kind: 'nothing'; readonly reason: string };

/** What can be done with frames that are selected. */
export const ACTS = ['fix', 'fix-rule', 'allow', 'approve', 'take-back', 'length', 'compose', 'aspect'] as const;
export type Act = (typeof ACTS)[number];

export type FromSheet =
  | { readonly kind: 'ready' }
  /** Pictures that are seen, of crops as they are and as the review has them; no others are waited for. */
  | {
      readonly kind: 'seen';
      readonly revision: number;
      readonly now: readonly number[];
      readonly after: readonly number[];
    }
  /** Show this frame's line in the text. */
  | { readonly kind: 'go'; readonly revision: number; readonly index: number; readonly isLeaving: boolean }
  | { readonly kind: 'act'; readonly revision: number; readonly act: Act; readonly indices: readonly number[] }
  /** Write the crops of the review, but not of these frames. */
  | { readonly kind: 'write'; readonly leftOut: readonly number[] }
  /** Give up the review. */
  | { readonly kind: 'dismiss' }
  | { readonly kind: 'needs-you'; readonly isWanted: boolean }
  /** The crops of an output are to be shown; absent: the main crops. */
  | { readonly kind: 'cut-for'; readonly output?: string | undefined }
  | { readonly kind: 'undo' };

/** Characters; no output has a longer name. */
const LONGEST_NAME = 80;
/** More than any screen shows. */
const MOST_SEEN = 1000;

/** A message from the webview, if it is one: whoever may run there can name frames and deeds, and no file or text. */
export function readFromSheet(value: unknown): FromSheet | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const message = value as Readonly<Record<string, unknown>>;
  const { kind, revision } = message;
  if (kind === 'ready' || kind === 'dismiss' || kind === 'undo') return { kind };
  if (kind === 'needs-you') {
    const { isWanted } = message;
    return typeof isWanted === 'boolean' ? { kind, isWanted } : undefined;
  }
  if (kind === 'cut-for') {
    const { output } = message;
    if (output === undefined) return { kind };
    return typeof output === 'string' && output.length <= LONGEST_NAME ? { kind, output } : undefined;
  }
  if (kind === 'write') {
    const leftOut = indicesIn(message['leftOut']);
    return leftOut && { kind, leftOut };
  }
  if (!isCount(revision)) return undefined;
  if (kind === 'seen') {
    const now = indicesIn(message['now'], MOST_SEEN);
    const after = indicesIn(message['after'], MOST_SEEN);
    return now && after && { kind, revision, now, after };
  }
  if (kind === 'go') {
    const { index, isLeaving } = message;
    return isCount(index) && typeof isLeaving === 'boolean' ? { kind, revision, index, isLeaving } : undefined;
  }
  if (kind !== 'act') return undefined;
  const act = ACTS.find((each) => each === message['act']);
  const indices = indicesIn(message['indices']);
  return act && indices && { kind, revision, act, indices };
}

function isCount(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
}

/** A copy: what is not an index is not taken along. */
function indicesIn(value: unknown, most: number = INPUT_LIMITS.manifestFrames.most): number[] | undefined {
  if (!Array.isArray(value) || value.length > most) return undefined;
  const indices: unknown[] = Array.from(value as ArrayLike<unknown>);
  return indices.every(isCount) ? indices : undefined;
}
