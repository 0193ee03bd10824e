import { homedir } from 'node:os';
import { join } from 'node:path';

/** Where this user's caches live; what is there can be deleted at any time. */
export function cacheFolder(): string {
  const given = process.env['SELVEDGE_CACHE'];
  if (given !== undefined && given !== '') return given;
  return join(userCaches(), 'selvedge');
}

function userCaches(): string {
  if (process.platform === 'win32') return process.env['LOCALAPPDATA'] ?? join(homedir(), 'AppData', 'Local');
  if (process.platform === 'darwin') return join(homedir(), 'Library', 'Caches');
  return process.env['XDG_CACHE_HOME'] ?? join(homedir(), '.cache');
}
