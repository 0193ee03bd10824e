import type { FrameFacts } from '../session/frame-facts.ts';

/** `half length, 2:3, 1840 × 2760 px`: what is known, on one line. */
export function factWords({ length, shape, pixels }: FrameFacts): string {
  const size = pixels && `${pixels.width} × ${pixels.height} px`;
  return [length, shape, size].filter((word) => word !== undefined).join(', ');
}
