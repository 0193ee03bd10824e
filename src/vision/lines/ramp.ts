/** 0 up to `from`, 1 from `to` on, a straight line between; `to` may be the smaller one. */
export function ramp(value: number, from: number, to: number): number {
  return Math.max(0, Math.min(1, (value - from) / (to - from)));
}
