import type { HalfSpace } from '../geometry/half-space.ts';
import type { EdgeName, Edges } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import type { ActiveLimit } from './active-limit.ts';
import type { Configuration } from './configuration.ts';
import type { Scene } from './scene.ts';

export const SEVERITIES = ['error', 'warning', 'info', 'off'] as const;
export type SeveritySetting = (typeof SEVERITIES)[number];
export type Severity = Exclude<SeveritySetting, 'off'>;

/** One number that a manifest may set for a rule. */
export interface NumberSetting {
  readonly default: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly unit: string;
  /** One line of help. */
  readonly help: string;
}

export type SettingSchema = Readonly<Record<string, NumberSetting>>;
export type SettingValues<Schema extends SettingSchema = SettingSchema> = { readonly [Name in keyof Schema]: number };

/** A linear expression in a crop's edge lines: its value is `left·l + top·t + right·r + bottom·b + constant`, in pixels. */
export interface Linear {
  readonly left?: number;
  readonly top?: number;
  readonly right?: number;
  readonly bottom?: number;
  readonly constant: number;
}

/** What a finding reports as its value: `of` divided by `per` (or by the crop's short side), in percent. */
export interface Measure {
  readonly of: Linear;
  readonly per: Linear | 'short-side';
}

/** Words and numbers that a message is made of. */
export type MessageArguments = Readonly<Record<string, string | number>>;

/**
 * A condition on the crop, as data. It is met when any one of `escapes` is: the edge lies before the place, or past it,
 * or the place lies outside the crop. Check and search read the same limits.
 */
export interface Limit {
  /** Which of the rule's messages says it. */
  readonly message: string;
  /** What the words need beside person, joint and edge, which every message is given. */
  readonly arguments: MessageArguments;
  readonly escapes: readonly HalfSpace[];
  /** By how many pixels the search stays deeper inside than the rule asks: what measuring can be wrong by. */
  readonly deeper: number;
  readonly edge?: EdgeName | undefined;
  /** Id of the person. */
  readonly person?: number | undefined;
  /** A point name, or `neck`, `left_hand`, `left_foot`. */
  readonly joint?: string | undefined;
  /** The finding says "possibly": the place is not measured surely. */
  readonly possible?: boolean | undefined;
  /** A warning also where the rule only hints. */
  readonly presses?: boolean | undefined;
  readonly measure?: Measure | undefined;
  /** The bound in the unit of the measure. */
  readonly bound?: number | undefined;
}

/** Something that a rule says of a frame and that no other crop changes. */
export interface Remark {
  /** Which of the rule's messages says it. */
  readonly message: string;
  readonly arguments: MessageArguments;
  /** In the unit of the rule's page, like `bound`. */
  readonly value?: number;
  readonly bound?: number;
  readonly person?: number;
}

/** A rule whose values are data and whose limits are pure functions of the scene. */
export interface Rule {
  readonly id: string;
  /** One line: what it sees. */
  readonly summary: string;
  readonly severity: SeveritySetting;
  readonly settings: SettingSchema;
  /** Unit of a finding's value and limit, for the rule's page. */
  readonly unit?: string | undefined;
  /** How much a broken limit of this rule weighs in the search; a heavier rule is never broken to keep lighter ones. */
  readonly weight: number;
  readonly messages: Readonly<Record<string, (argument: MessageArguments, value: number) => string>>;
  /**
   * What it asks of these edges of every crop for the sake of one subject's body; with `at`, limits that this crop
   * meets may be left out.
   */
  readonly bodyLimits?:
    ((figure: Figure, settings: SettingValues, edges: readonly EdgeName[], at?: Edges) => readonly Limit[]) | undefined;
  /** How far outside a body an edge may lie and still break one of its `bodyLimits`, in pixels. Absent: not at all. */
  readonly bodyReach?: ((figure: Figure, settings: SettingValues, crop: Edges) => number) | undefined;
  /** What else it asks of a frame. */
  readonly limits?: ((scene: Scene, settings: SettingValues) => readonly Limit[]) | undefined;
  /** What it says of a frame whatever the crop; `configuration` is for what other rules would say of another frame. */
  readonly check?:
    ((scene: Scene, settings: SettingValues, configuration: Configuration) => readonly Remark[]) | undefined;
  /** What it adds to another rule's broken limit: one of its own messages, when it caused it. */
  readonly explain?: ((scene: Scene, broken: ActiveLimit) => Remark | undefined) | undefined;
}

/** Types a rule's own settings where they are used, and erases them where all rules are handled alike. */
export function defineRule<Schema extends SettingSchema>(
  rule: Omit<Rule, 'settings' | 'bodyLimits' | 'bodyReach' | 'limits' | 'check'> & {
    readonly settings: Schema;
    readonly bodyLimits?: (
      figure: Figure,
      settings: SettingValues<Schema>,
      edges: readonly EdgeName[],
      at?: Edges,
    ) => readonly Limit[];
    readonly bodyReach?: (figure: Figure, settings: SettingValues<Schema>, crop: Edges) => number;
    readonly limits?: (scene: Scene, settings: SettingValues<Schema>) => readonly Limit[];
    readonly check?: (scene: Scene, settings: SettingValues<Schema>, configuration: Configuration) => readonly Remark[];
  },
): Rule {
  // Written out: what handles all rules alike reads objects of one shape ten times faster.
  const { id, summary, severity, settings, unit, weight, messages, explain } = rule;
  const { bodyLimits, bodyReach, limits, check } = rule as Rule;
  return { id, summary, severity, settings, unit, weight, messages, bodyLimits, bodyReach, limits, check, explain };
}
