/**
 * The kinds of value that a manifest may hold, as data. Validation (read.ts), the JSON Schema (json-schema.ts) and the
 * editor's completion all come from the same data.
 */
export type Schema =
  | TextSchema
  | NumberSchema
  | BooleanSchema
  | ChoiceSchema
  | AspectSchema
  | MeasureSchema
  | ListSchema
  | MapSchema
  | SeverityOrMapSchema;

interface Described {
  /** What the value is, for messages: "a width is a fraction of the photo". */
  readonly meaning?: string;
}

/** Free text. A number that is not in quotes is text as it is written. */
export interface TextSchema extends Described {
  readonly kind: 'text';
  /** ECMAScript regular expression that the text matches. */
  readonly pattern?: string;
  /** What a text that matches `pattern` looks like, for messages. */
  readonly patternMeaning?: string;
  /** An empty text is a problem, said so with this message. */
  readonly emptyMessage?: string;
}

export interface NumberSchema extends Described {
  readonly kind: 'number';
  readonly integer?: true;
  readonly minimum?: number;
  /** Exclusive minimum. */
  readonly above?: number;
  readonly maximum?: number;
}

export interface BooleanSchema extends Described {
  readonly kind: 'boolean';
}

export interface ChoiceSchema extends Described {
  readonly kind: 'choice';
  readonly options: readonly string[];
}

/** `original`, `free` or `A:B`. */
export interface AspectSchema extends Described {
  readonly kind: 'aspect';
}

/** A number and its unit, such as `300mm`. */
export interface MeasureSchema extends Described {
  readonly kind: 'measure';
  readonly zero?: 'allowed';
}

export interface ListSchema extends Described {
  readonly kind: 'list';
  readonly item: Schema;
  /** What one item is called, for messages. */
  readonly itemName: string;
  /** Problems inside name the item's place, and each item may follow its own share of aliases. */
  readonly numbered?: true;
  readonly minimumItems?: number;
}

export interface KeySchema {
  readonly value: Schema;
  /** One line, for hovers and completion. */
  readonly help: string;
  /** A value as it would be written. */
  readonly example: string;
  readonly required?: true;
  /** A frame's key may be `null`: not set, whatever a merge key brings. */
  readonly nullable?: true;
}

/** Keys that are not known beforehand: output ids and allowances. */
export interface DynamicKeys {
  /** What one key is called, for messages. */
  readonly name: string;
  /** ECMAScript regular expression that the key matches. */
  readonly pattern: string;
  readonly patternMeaning: string;
  readonly value: Schema;
  readonly help: string;
  readonly example: string;
}

/** A map. Keys that begin with `x-` are allowed in every map and never looked at. */
export interface MapSchema extends Described {
  readonly kind: 'map';
  readonly keys: ReadonlyMap<string, KeySchema>;
  readonly dynamic?: DynamicKeys;
  /** Pairs of keys that exclude each other. */
  readonly conflicts?: readonly (readonly [string, string])[];
  /** Of these keys at least one is needed. */
  readonly anyOf?: readonly string[];
}

/** A severity alone, or a map with `severity` and the rule's settings. */
export interface SeverityOrMapSchema extends Described {
  readonly kind: 'severity-or-map';
  readonly map: MapSchema;
}

/** A number that a manifest may set for a rule; `src/rules` describes its settings so. */
export interface RuleSetting {
  readonly default: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly unit: string;
  readonly help: string;
}

/** What the manifest needs to know about a rule. */
export interface RuleDescription {
  readonly id: string;
  /** One line, for hovers and completion. */
  readonly summary?: string;
  /** Settings beside `severity`, by name. */
  readonly settings?: Readonly<Record<string, RuleSetting>>;
}

/** The rules of this version, given by whoever parses. */
export type RuleCatalogue = readonly RuleDescription[];
