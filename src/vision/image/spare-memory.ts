/*
 * A photo is sampled a dozen times, a megabyte and more each. New memory for each keeps the garbage collector busy for
 * longer than the sampling takes, so what is no longer needed is used again.
 */

/** More is never out at once. */
const MOST_KEPT = 2;

/** The smallest first. */
const kept: ArrayBufferLike[] = [];

/** Numbers, all 0, that belong to the caller: to be given back, or left to the garbage collector. */
export function takeMemory(length: number): Float32Array {
  const bytes = length * Float32Array.BYTES_PER_ELEMENT;
  const at = kept.findIndex(({ byteLength }) => byteLength >= bytes);
  if (at < 0) return new Float32Array(length);
  const [memory] = kept.splice(at, 1);
  return new Float32Array(memory!, 0, length).fill(0);
}

/** Only for what nobody holds any longer, not even through another view of the same memory. */
export function giveMemoryBack({ buffer }: Float32Array): void {
  kept.push(buffer);
  kept.sort((one, other) => one.byteLength - other.byteLength);
  if (kept.length > MOST_KEPT) kept.shift();
}
