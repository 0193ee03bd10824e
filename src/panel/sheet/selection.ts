/** Which frames are selected, by name, and where a range begins. */
export interface Selection {
  readonly names: ReadonlySet<string>;
  /** Where the last click or key began; a range goes from there. */
  readonly anchor: number;
}

export const NOTHING: Selection = { names: new Set(), anchor: 0 };

/** Only this one. */
export function only(shown: readonly string[], position: number): Selection {
  return { names: new Set(shown.slice(position, position + 1)), anchor: position };
}

/** This one changes sides; the others stay. */
export function toggled({ names }: Selection, shown: readonly string[], position: number): Selection {
  const next = new Set(names);
  const name = shown[position];
  if (name !== undefined && !next.delete(name)) next.add(name);
  return { names: next, anchor: position };
}

/** All from the anchor to this one, and no others. */
export function upTo({ anchor }: Selection, shown: readonly string[], position: number): Selection {
  const [first, last] = anchor < position ? [anchor, position] : [position, anchor];
  return { names: new Set(shown.slice(first, last + 1)), anchor };
}

export function all(shown: readonly string[]): Selection {
  return { names: new Set(shown), anchor: 0 };
}

/** What is no longer shown is no longer selected: nothing is done to a frame that nobody sees. */
export function keptIn({ names, anchor }: Selection, shown: readonly string[]): Selection {
  return {
    names: new Set(shown.filter((name) => names.has(name))),
    anchor: Math.min(anchor, Math.max(0, shown.length - 1)),
  };
}
