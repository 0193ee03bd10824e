import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Everything that tests put into the temporary folder goes into one of their own, which goes away with them. */
export default function setUp(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-'));
  // Some tests run commands as another user, who must get to their folders.
  chmodSync(folder, 0o755);
  process.env['TMPDIR'] = process.env['TEMP'] = process.env['TMP'] = folder;
  return () => {
    rmSync(folder, { recursive: true, force: true });
  };
}
