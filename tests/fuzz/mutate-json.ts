import type { Random } from '../scenes/random.ts';
import { mutateCharacters } from './mutate-text.ts';

const VALUES: readonly unknown[] = [
  null, true, -1, 0, 1e308, -1e308, 1e-320, 0.5, 11, 4000, '', '0.5', '\u001b[31m', '../a.jpg', [], {}, [[]], [0.5], [1, 2, 3, 4, 5],
  { id: 1 }, 'hand', 'model', 'a.jpg',
]; // prettier-ignore

/** Changes lines of JSON by what they mean, or by their characters. */
export function mutateJsonLines(text: string, random: Random): string {
  const lines = text.split('\n').map((line) => {
    if (line === '' || random.chance(0.3)) return line;
    return random.chance(0.7) ? mutateJson(line, random) : mutateCharacters(line, random);
  });
  if (random.chance(0.1)) lines.splice(Math.floor(random.unit() * lines.length), 0, '<<<<<<< ours', '{"photo":', '');
  return random.chance(0.05) ? `\ufeff${lines.join('\r\n')}` : lines.join('\n');
}

function mutateJson(line: string, random: Random): string {
  let value = JSON.parse(line) as unknown;
  for (let changes = 1 + Math.floor(random.unit() * 3); changes > 0; changes--) value = changed(value, random);
  return JSON.stringify(value).replace('"1e999"', '1e999');
}

/** Goes down to some place, the deeper the more seldom, and puts something else there. */
function changed(value: unknown, random: Random): unknown {
  if (typeof value !== 'object' || value === null || random.chance(0.1)) return random.pick([...VALUES, '1e999']);
  const keys = Object.keys(value);
  if (keys.length === 0) return random.pick(VALUES);
  const key = random.pick(keys);
  if (Array.isArray(value)) {
    const list = [...(value as unknown[])];
    if (random.chance(0.1)) return [...list, ...list];
    list[Number(key)] = changed(list[Number(key)], random);
    return random.chance(0.05) ? list.slice(1) : list;
  }
  const map = { ...(value as Record<string, unknown>) };
  if (random.chance(0.1)) {
    return Object.fromEntries(Object.entries(map).filter(([name]) => name !== key));
  }
  return { ...map, [key]: changed(map[key], random) };
}
