/** What no shell takes for anything but itself. */
const PLAIN = /^[A-Za-z0-9_@%+=:,./-]+$/;

/**
 * A path as it can be pasted into a command: as it is, or in quotes when it has spaces, accents, quotes or signs of the
 * shell's own. Quoting as POSIX (Shell Command Language, 2.2.2) has it; on Windows double quotes.
 */
export function shellPath(path: string, platform: NodeJS.Platform = process.platform): string {
  // A path that begins with a dash would be taken for an option.
  const safe = path.startsWith('-') ? `./${path}` : path;
  if (platform === 'win32') return /^[A-Za-z0-9_@+=:,.\\/-]+$/.test(safe) ? safe : `"${safe}"`;
  return PLAIN.test(safe) ? safe : `'${safe.replaceAll("'", String.raw`'\''`)}'`;
}
