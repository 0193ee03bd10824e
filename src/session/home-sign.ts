import { homedir } from 'node:os';
import { join } from 'node:path';
import { SessionError } from './session-error.ts';

/**
 * A shell puts the home folder in the place of `~`, but not in quotes: nobody means a folder of that name.
 * @throws SessionError when the path begins with one
 */
export function refuseHomeSign(path: string): void {
  if (!/^~(?=[/\\]|$)/.test(path)) return;
  const meant = join(homedir(), path.slice(1));
  throw new SessionError(
    `${path} begins with ~, which stands for your home folder only outside quotes. Leave the quotes out, or write ${meant}. Nothing was begun.`,
  );
}
