import type { Random } from '../scenes/random.ts';

const EDGES = [0x00, 0x01, 0x7f, 0x80, 0xff];

/** Changes a picture's bytes, most of them in its header, or cuts it short. */
export function mutateBytes(bytes: Buffer, random: Random): Buffer {
  let changed = Buffer.from(bytes);
  const header = random.chance(0.8) ? Math.min(200, changed.length) : changed.length;
  for (let changes = 1 + Math.floor(random.unit() * 8); changes > 0; changes--) {
    const at = Math.floor(random.unit() * header);
    const choice = random.unit();
    if (choice < 0.4) changed[at] = random.pick(EDGES);
    else if (choice < 0.6) changed[at] = Math.floor(random.unit() * 256);
    else if (choice < 0.7) changed[at]! ^= 1 << Math.floor(random.unit() * 8);
    // Lengths and sizes are two or four bytes together.
    else if (choice < 0.85) changed.fill(random.pick(EDGES), at, Math.min(at + random.pick([2, 4]), changed.length));
    else if (choice < 0.95)
      changed = Buffer.concat([changed.subarray(0, at), changed.subarray(at + random.pick([1, 2, 16]))]);
    else changed = Buffer.concat([changed.subarray(0, at), changed.subarray(0, at), changed.subarray(at)]);
    if (changed.length === 0) return changed;
  }
  return random.chance(0.15) ? changed.subarray(0, Math.floor(random.unit() * changed.length)) : changed;
}
