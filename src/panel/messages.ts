import type { Rectangle } from '../geometry/shapes.ts';
import type { RuleConfiguration } from '../rules/configuration.ts';
import type { SceneInput } from '../rules/scene.ts';

/** Goes up with every change; both ends must have the same. */
export const MAT_PROTOCOL = 1;

/** One frame on the cutting mat. */
export interface MatFrame {
  readonly index: number;
  readonly name: string;
  /** `3 of 17` */
  readonly place: string;
  readonly input: SceneInput;
  readonly configuration: readonly (readonly [string, RuleConfiguration])[];
  /** Keys of its `allow`. */
  readonly allow: readonly string[];
  readonly isFinal: boolean;
  /** Its people were measured. */
  readonly isMeasured: boolean;
}

export type ToMat =
  | { readonly kind: 'frame'; readonly protocol: number; readonly frame: MatFrame }
  /** The whole photo, not turned. */
  | { readonly kind: 'picture'; readonly index: number; readonly address: string }
  /** There is nothing to show, and why. */
  | { readonly kind: 'nothing'; readonly reason: string };

export const DIRECTIONS = ['previous', 'next', 'next-found'] as const;
export type Direction = (typeof DIRECTIONS)[number];

export type FromMat =
  | { readonly kind: 'ready' }
  /** What is held was let go: this is the frame's crop now. */
  | { readonly kind: 'crop'; readonly index: number; readonly crop: Rectangle }
  | { readonly kind: 'go'; readonly to: Direction }
  | { readonly kind: 'undo' };

/** A message from the webview, if it is one: whoever may run there can name no file and write no other key. */
export function readFromMat(value: unknown): FromMat | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { kind, index, crop, to } = value as Readonly<Record<string, unknown>>;
  if (kind === 'ready' || kind === 'undo') return { kind };
  if (kind === 'go') return DIRECTIONS.includes(to as Direction) ? { kind, to: to as Direction } : undefined;
  if (kind !== 'crop' || !Number.isInteger(index) || typeof crop !== 'object' || crop === null) return undefined;
  const { x, y, w, h } = crop as Readonly<Record<string, unknown>>;
  if (![x, y, w, h].every((side) => typeof side === 'number' && Number.isFinite(side) && Math.abs(side) <= 10)) {
    return undefined;
  }
  const rectangle = { x, y, w, h } as Rectangle;
  return rectangle.w > 0 && rectangle.h > 0 ? { kind, index: index as number, crop: rectangle } : undefined;
}
