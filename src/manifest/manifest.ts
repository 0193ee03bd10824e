import type { Orientation } from '../geometry/ratio.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import type { WrittenMap } from './written.ts';

/** Half-open range of offsets into the manifest's text, in UTF-16 code units. */
export interface TextRange {
  readonly start: number;
  readonly end: number;
}

/** A value and where it stands. */
export interface Located<T> {
  readonly value: T;
  /** The value as this place has it: an alias' own text when it is one, the `<<` value when it was merged. */
  readonly range: TextRange;
  /** The key in front of the value; for an item of a list, the item. */
  readonly key: TextRange;
  /** Where the text was written that gives the value, when aliases or merge keys led elsewhere. */
  readonly origin?: TextRange;
}

export const LENGTHS = ['full-length', 'three-quarter', 'half-length', 'head-and-shoulders', 'close-up'] as const;
/** How much of a person is in the picture. */
export type Length = (typeof LENGTHS)[number];

export const COMPOSITIONS = ['thirds', 'centred', 'free'] as const;
export type Composition = (typeof COMPOSITIONS)[number];

export const SEVERITIES = ['error', 'warning', 'info', 'off'] as const;
export type SeveritySetting = (typeof SEVERITIES)[number];

/** The shape asked for: the photo's own, any, or a : b (upright or lying as the crop is). */
export type Aspect =
  | { readonly kind: 'original' }
  | { readonly kind: 'free' }
  | { readonly kind: 'ratio'; readonly a: number; readonly b: number };

export const MEASURE_UNITS = ['px', 'mm', 'cm', 'in'] as const;
export type MeasureUnit = (typeof MEASURE_UNITS)[number];

/** A distance on paper or in pixels, as written. */
export interface Measure {
  readonly amount: number;
  readonly unit: MeasureUnit;
}

export const FORMATS = ['jpeg', 'png', 'tiff', 'webp', 'avif'] as const;
export type Format = (typeof FORMATS)[number];

export const PROFILES = ['srgb', 'display-p3', 'original'] as const;
/** The colour profile of a delivered file: its colours are converted to it, or kept with the photo's own. */
export type Profile = (typeof PROFILES)[number];

export const METADATA_KEPT = ['all', 'credit', 'none'] as const;
/** What a delivered file tells: what the photo tells, only whose it is, or nothing. */
export type MetadataKept = (typeof METADATA_KEPT)[number];

/** One entry of `deliver`: something that gets delivered. */
export interface Output {
  readonly id: string;
  readonly key: TextRange;
  readonly range: TextRange;
  readonly aspect?: Located<Aspect>;
  /** How the shape is held; absent: as the frame's crop is. */
  readonly orientation?: Located<Orientation>;
  /** Name of a paper size, such as `A3`. */
  readonly paper?: Located<string>;
  readonly long?: Located<Measure>;
  readonly short?: Located<Measure>;
  /** Pixels per inch. */
  readonly ppi?: Located<number>;
  readonly bleed?: Located<Measure>;
  readonly safe?: Located<Measure>;
  /** Template of the file name, with `{session}`, `{stem}` and `{output}`. */
  readonly name?: Located<string>;
  readonly format?: Located<Format>;
  /** 1 to 100. */
  readonly quality?: Located<number>;
  readonly profile?: Located<Profile>;
  readonly metadata?: Located<MetadataKept>;
  /** Whether the file says where the photo was taken. */
  readonly location?: Located<boolean>;
  /** Whether a picture that is made smaller is sharpened. */
  readonly sharpen?: Located<boolean>;
}

/** What the manifest says about one rule. */
export interface RuleSettings {
  readonly key: TextRange;
  readonly range: TextRange;
  readonly severity?: Located<SeveritySetting>;
  /** Checked against the rule's own schema. */
  readonly settings: ReadonlyMap<string, Located<number>>;
}

/** One crop, in fractions of the photo in the turned picture; the ranges of its four numbers are kept for messages. */
export interface Crop extends Rectangle {
  readonly members: Readonly<Record<'x' | 'y' | 'w' | 'h', Located<number>>>;
}

/** A finding that the photographer wants: its reason, by `rule` or `rule/joint`. */
export interface Allowance extends Located<string> {
  readonly rule: string;
  readonly joint?: string;
}

/** One entry of `frames` that could be read. */
export interface Frame {
  /** Place in `frames`, from 0. Entries that could not be read are counted, so indices may have gaps. */
  readonly index: number;
  /** From the first to the last character of the entry, without its dash. */
  readonly range: TextRange;
  /** As written, relative to the photos folder, with `/`. */
  readonly photo: Located<string>;
  /** 1 for the first frame of a photo, 2 for the second … */
  readonly occurrence: number;
  /** `0142.jpg`, or `0142.jpg#2` for the second frame of that photo. */
  readonly name: string;
  readonly crop?: Located<Crop>;
  /** Degrees, positive clockwise. Absent: 0. */
  readonly straighten?: Located<number>;
  readonly aspect?: Located<Aspect>;
  readonly length?: Located<Length>;
  /** Ids of the people that count. */
  readonly subjects?: Located<readonly number[]>;
  readonly compose?: Located<Composition>;
  readonly allow: ReadonlyMap<string, Allowance>;
  readonly note?: Located<string>;
  readonly final?: Located<boolean>;
  /** This frame's own crop per output id. */
  readonly deliver: ReadonlyMap<string, Located<Crop>>;
  /** Keys that are there but whose value could not be read (a problem says why). No edit touches broken YAML. */
  readonly unread: ReadonlyMap<string, TextRange>;
}

export type ProblemCode =
  | 'yaml'
  | 'unfinished-merge'
  | 'tab'
  | 'several-documents'
  | 'empty'
  | 'not-a-map'
  | 'duplicate-key'
  | 'unknown-key'
  | 'missing-key'
  | 'no-value'
  | 'wrong-kind'
  | 'out-of-bounds'
  | 'unknown-value'
  | 'unknown-rule'
  | 'unknown-output'
  | 'empty-reason'
  | 'conflict'
  | 'unknown-alias'
  | 'too-many-aliases'
  | 'too-deep';

/** Something wrong with the manifest. */
export interface Problem {
  readonly code: ProblemCode;
  /** What is wrong and what would be right, for a photographer. */
  readonly message: string;
  readonly range: TextRange;
  readonly severity: 'error' | 'warning';
  /** What to write instead of the text in `range`, when spelling suggests it. */
  readonly suggestion?: string;
  /** The frame's place in `frames`, from 0, when the problem lies in one. */
  readonly frame?: number;
  /** The key over the frames that it is about, when it is about one. */
  readonly key?: string;
}

/** A session's manifest, as far as it could be read. */
export interface Manifest {
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly session?: Located<string>;
  /** Folder, relative to the manifest. Absent: `DEFAULT_PHOTOS`. */
  readonly photos?: Located<string>;
  /** Absent: `DEFAULT_ASPECT`. */
  readonly aspect?: Located<Aspect>;
  /** Absent: `DEFAULT_COMPOSITION`. */
  readonly compose?: Located<Composition>;
  readonly rules: ReadonlyMap<string, RuleSettings>;
  readonly deliver: ReadonlyMap<string, Output>;
  readonly frames: readonly Frame[];
  /** Entries of `frames`, those that could not be read included. */
  readonly frameCount: number;
  /** The value of `frames`, when there is one. */
  readonly framesRange?: TextRange;
  /** Anchored text that an alias somewhere uses, in the order of the text; an edit there would change two places. */
  readonly shared: readonly TextRange[];
  /** For edit.ts: the whole map as it is written. Absent when nothing could be read. */
  readonly written?: WrittenMap;
  /** For edit.ts: each readable frame's entry as it is written, by the frame's index. */
  readonly writtenFrames: WrittenFrames;
}

/** Looks up how a frame is written; a manifest that is being edited reads it only when somebody asks. */
export interface WrittenFrames {
  get(frameIndex: number): WrittenMap | undefined;
}

export const DEFAULT_PHOTOS = '.';
export const DEFAULT_ASPECT: Aspect = { kind: 'original' };
export const DEFAULT_COMPOSITION: Composition = 'thirds';
