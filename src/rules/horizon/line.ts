import { turnPoint } from '../../geometry/turning.ts';
import { levelDegrees, isHorizonSeen } from '../levelling.ts';
import type { Scene } from '../scene.ts';

/** A line across the turned picture: its height is `slope · x + offset`, in pixels. */
export interface HorizonLine {
  readonly slope: number;
  readonly offset: number;
}

/** A picture turned this far from level, in degrees, is about something else than its horizon. */
const MOST_LEAN = 30;

/** Where the horizon runs in the turned picture; undefined when it was not surely seen. */
export function horizonLine(scene: Pick<Scene, 'photo' | 'degrees' | 'tilt' | 'horizon'>): HorizonLine | undefined {
  const { photo, degrees, horizon } = scene;
  if (!horizon || !isHorizonSeen(scene)) return undefined;
  // Turned by the tilt it would run level; until then it leans by what is missing.
  const lean = degrees - (levelDegrees(scene) ?? 0);
  if (Math.abs(lean) > MOST_LEAN) return undefined;
  const { x, y } = turnPoint({ x: photo.width / 2, y: horizon.y * photo.height }, photo, degrees);
  const slope = Math.tan((lean * Math.PI) / 180);
  return { slope, offset: y - slope * x };
}
