import type { PhotoPeople } from '../../people/person.ts';
import type { PhotoProblem } from '../../photos/photo-error.ts';
import type { RuntimeKind } from '../runtime/runtime.ts';

/** Goes up with every change to the messages; both ends must have the same. */
export const PROTOCOL_VERSION = 2;

/** What a workroom process is told when it starts, as its only argument (JSON). */
export interface WorkroomSettings {
  readonly protocol: number;
  readonly modelsFolder: string;
  /** The product's version, for `by`. */
  readonly version: string;
  /** Absent: what SELVEDGE_RUNTIME says (`native` or `wasm`), else native, else WebAssembly. */
  readonly runtime?: RuntimeKind;
}

/** From the pool to a workroom. One request at a time. */
export interface MeasureRequest {
  readonly kind: 'measure';
  readonly id: number;
  readonly path: string;
  /** What the people file calls the photo. */
  readonly photo: string;
}

/** From the pool to a workroom that is measuring: the photo that it is most likely asked for next. Has no reply. */
export interface ExpectRequest {
  readonly kind: 'expect';
  readonly path: string;
}

/** `crashed`: the workroom died on this photo, twice. `internal`: a fault of ours. */
export type MeasureProblem = PhotoProblem | 'crashed' | 'internal';

/** From a workroom to the pool. */
export type Reply =
  | { readonly kind: 'ready'; readonly protocol: number }
  | { readonly kind: 'measured'; readonly id: number; readonly people: PhotoPeople }
  | { readonly kind: 'failed'; readonly id: number; readonly problem: MeasureProblem; readonly message: string };
