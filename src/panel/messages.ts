import type { Rectangle } from '../geometry/shapes.ts';
import type { Correction } from '../people/correct.ts';
import type { RuleConfiguration } from '../rules/configuration.ts';
import type { Finding } from '../rules/finding.ts';
import type { Severity } from '../rules/rule.ts';
import type { SceneInput } from '../rules/scene.ts';

/** Goes up with every change; both ends must have the same. */
export const MAT_PROTOCOL = 5;

/** What the lamp and the mat call having the people measured. */
export const MEASURE_TITLE = 'Measure the people of this session';

/** Pixels of the whole photo's longer edge on the mat, once the small picture is painted. */
export const WHOLE_EDGE = 1600;

/** Characters of a reason that is typed on the mat. */
export const LONGEST_REASON = 300;

/** One frame on the cutting mat. */
export interface MatFrame {
  /** Goes up with each message; answers name it, so that they are about the frame that was seen. */
  readonly revision: number;
  readonly name: string;
  /** `3 of 17` */
  readonly place: string;
  /** The output whose crop of the frame lies on the mat; absent where it is the main crop. */
  readonly output: string | undefined;
  /** Why none of its crops is found, where that is so: the largest of its shape lies there instead. */
  readonly whyNone: string | undefined;
  /** All outputs of the session. */
  readonly outputs: readonly MatOutput[];
  readonly input: SceneInput;
  /** The shape is a paper's, which is held as the crop is held. */
  readonly isPaperShape: boolean;
  readonly configuration: readonly (readonly [string, RuleConfiguration])[];
  /** Keys of its `allow`. */
  readonly allow: readonly string[];
  readonly isFinal: boolean;
  /** Its people were measured. */
  readonly isMeasured: boolean;
  /** What is found about the photo and the text rather than the crop. */
  readonly aboutFiles: readonly Pick<Finding, 'rule' | 'severity' | 'message'>[];
  /** What is found about the crops that outputs have of it; none where one of those lies on the mat. */
  readonly aboutOutputs: readonly FoundInOutput[];
  /** The degrees that would level it, when measuring is sure of them. */
  readonly measuredLevel: number | undefined;
  /** The crop of the text as last saved, when it is another. */
  readonly saved: SavedCrop | undefined;
  /** A correction of people can be taken back. */
  readonly canTakeBack: boolean;
}

/** An output as the mat offers it. */
export interface MatOutput {
  readonly id: string;
  /** The frame has a crop of its own for it. */
  readonly isOwn: boolean;
  /** The worst that is found about its crop of this frame. */
  readonly worst: Severity | undefined;
}

export type FoundInOutput = Pick<Finding, 'rule' | 'severity' | 'message' | 'joint'> & { readonly output: string };

export interface SavedCrop {
  readonly crop: Rectangle;
  readonly degrees: number;
}

/** What can be switched on and off, each by itself; the guides combine. */
export const SWITCHES = [
  'keep-shape', 'body-map', 'as-saved', 'thirds', 'centre', 'eye-line', 'safe-margin', 'widths',
] as const; // prettier-ignore
export type Switch = (typeof SWITCHES)[number];

export type ToMat =
  | { readonly kind: 'frame'; readonly protocol: number; readonly frame: MatFrame }
  /** A part of the photo, or all of it, not turned; `isPreview` where it is small, and a sharper one is to be asked for. */
  | {
      readonly kind: 'picture';
      readonly revision: number;
      readonly region: Rectangle;
      readonly address: string;
      readonly isPreview?: boolean;
    }
  /** There is nothing to show, and why. */
  | { readonly kind: 'nothing'; readonly reason: string }
  /** Something that the user should know of the frame as it was shown last; it goes when the frame is another. */
  | { readonly kind: 'notice'; readonly text: string }
  /** The step that was asked for went through the text, and the page has the keys again. */
  | { readonly kind: 'focus' }
  /** What is switched on. */
  | { readonly kind: 'switches'; readonly on: readonly Switch[] };

export const DIRECTIONS = ['previous', 'next', 'next-found'] as const;
export type Direction = (typeof DIRECTIONS)[number];

export type FromMat =
  | { readonly kind: 'ready' }
  /** What is held was let go: this is the frame's crop now, in the picture turned by these degrees. */
  | { readonly kind: 'crop'; readonly revision: number; readonly crop: Rectangle; readonly degrees: number }
  /** A finding is allowed: `rule` or `rule/joint`, and why. */
  | { readonly kind: 'allow'; readonly revision: number; readonly key: string; readonly reason: string }
  /** The frame is approved as it is, or its approval is taken back. */
  | { readonly kind: 'approve'; readonly revision: number; readonly isFinal: boolean }
  /** The people of the session are to be measured. */
  | { readonly kind: 'measure' }
  | { readonly kind: 'go'; readonly to: Direction }
  /** The crop of an output is to lie on the mat, of this frame and of those that are gone to; absent: the main crop. */
  | { readonly kind: 'cut-for'; readonly output?: string | undefined }
  | { readonly kind: 'undo' | 'redo' | 'save' }
  | { readonly kind: 'switches'; readonly on: readonly Switch[] }
  /** A part of the photo is looked at closely. */
  | { readonly kind: 'look'; readonly revision: number; readonly region: Rectangle; readonly longEdge: number }
  | { readonly kind: 'correct'; readonly revision: number; readonly correction: Correction }
  /** Takes the last correction of people back. */
  | { readonly kind: 'take-back' };
