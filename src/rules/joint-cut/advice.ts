import type { EdgeName } from '../../geometry/shapes.ts';

const FROM_BELOW: Readonly<Record<string, string>> = {
  neck: 'Open to the upper chest, below the shoulder line.',
  shoulder: 'Open to the upper chest, or come up to the face.',
  elbow: 'Come up to the middle of the upper arm, or open to the middle of the forearm.',
  wrist: 'Come up to the middle of the forearm, or open until the whole hand is in.',
  hip: 'Come up to the waist, or open to mid-thigh.',
  knee: 'Come up to mid-thigh, or open to below the feet.',
  ankle: 'Come up to mid-thigh, or open to below the feet.',
};

const FROM_A_SIDE: Readonly<Record<string, string>> = {
  neck: 'Open until head and shoulders are in.',
  shoulder: 'Open until the shoulder is in, or cut the upper arm further out.',
  elbow: 'Open until the elbow is well in, or come in to the middle of the upper arm.',
  wrist: 'Open until the whole hand is in, or come in to the middle of the forearm.',
  hip: 'Open until the hip is well in, or come in past it.',
  knee: 'Open until the knee is well in, or come in to the middle of the thigh.',
  ankle: 'Open until the whole foot is in, or come in to the middle of the lower leg.',
};

/** What a photographer would do about a cut at this joint by this edge. */
export function adviceFor(joint: string, edge: EdgeName): string {
  return (
    (edge === 'bottom' ? FROM_BELOW : FROM_A_SIDE)[jointKind(joint)] ?? 'Come in, or open, until the cut looks meant.'
  );
}

/** `left_knee` → `knee`; `neck` stays. */
export function jointKind(joint: string): string {
  return joint.slice(joint.indexOf('_') + 1);
}
