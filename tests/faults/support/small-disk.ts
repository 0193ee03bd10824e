import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A disk of its own in memory; only where the system lets this user mount one (root, on Linux). */
export interface SmallDisk {
  readonly folder: string;
  readOnly(): void;
  /** Takes all that is left of it. */
  fill(): void;
  remove(): void;
}

export function smallDisk(kilobytes = 256): SmallDisk {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-disk-'));
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${kilobytes}k`, 'tmpfs', folder], { stdio: 'pipe' });
  return {
    folder,
    readOnly: () => execFileSync('mount', ['-o', 'remount,ro', folder]),
    fill: () => {
      takeAll(join(folder, 'filler'));
    },
    remove: () => execFileSync('umount', ['-l', folder]),
  };
}

function takeAll(path: string): void {
  const file = openSync(path, 'w');
  try {
    for (;;) writeSync(file, Buffer.alloc(4096));
  } catch {
    closeSync(file);
  }
}

/** Why this machine has no small disks; undefined where it has. */
export function whyNoSmallDisk(): string | undefined {
  try {
    smallDisk().remove();
    return undefined;
  } catch {
    return 'this user may not mount a disk in memory (needs root on Linux)';
  }
}
