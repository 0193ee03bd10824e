import { LineIndex } from '../manifest/position.ts';
import { printable } from '../report/printable.ts';
import type { Session } from '../session/session.ts';
import { BadCall } from './exit.ts';

/**
 * A manifest of which no frame can be read is no session.
 * @throws BadCall saying where it breaks
 */
export function requireFrames({ path, manifest }: Session): void {
  if (manifest.frames.length > 0) return;
  const lines = new LineIndex(manifest.text);
  const faults = manifest.problems
    .filter(({ severity }) => severity === 'error')
    .slice(0, 5)
    .map(({ message, range }) => {
      const { line, column } = lines.positionAt(range.start);
      return `${path}:${line}:${column}  ${printable(message)}`;
    });
  const empty = `${path} lists no frames. Add them under "frames:", each beginning with "- photo:", or begin with selvedge init.`;
  throw new BadCall(faults.length === 0 ? empty : `No frame of ${path} can be read.\n${faults.join('\n')}`);
}
