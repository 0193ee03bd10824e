import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT_FOLDER } from '../../truth/support/project.ts';

/** How many frames the sample session has. */
export function harbourFrames(): number {
  const text = readFileSync(join(PROJECT_FOLDER, 'sample-workspace', 'harbour', 'crops.yaml'), 'utf8');
  return text.match(/^ {2}- photo:/gm)!.length;
}
