import type { Located, Output } from '../../manifest/manifest.ts';

const NOWHERE = { start: 0, end: 0 };

/** What an output says, wherever it says it: an edit above it changes nothing for the frames. */
export function withoutPlaces(output: Output): Output {
  const { id } = output;
  const said = Object.entries(output).filter(([name]) => name !== 'id' && name !== 'key' && name !== 'range');
  const placeless = (said as [string, Located<unknown>][]).map(
    ([name, { value }]) => [name, { value, range: NOWHERE, key: NOWHERE }] as const,
  );
  return { id, key: NOWHERE, range: NOWHERE, ...(Object.fromEntries(placeless) as Partial<Output>) };
}
