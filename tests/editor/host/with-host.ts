import { describe, it } from 'vitest';
import { prepareHost, type EditorHost } from './prepare.ts';

/** Tests that need the editor host; where it cannot be had, one skipped test says why. */
export async function withHost(describeTests: (host: EditorHost) => void | Promise<void>): Promise<void> {
  const host = await prepareHost().catch((error: unknown) => (error instanceof Error ? error.message : String(error)));
  if (typeof host !== 'string') {
    await describeTests(host);
    return;
  }
  console.warn(`\nNO EDITOR HOST, so nothing of the editor was tested: ${host}\n`);
  describe('the extension in a real editor', () => {
    it.skip(`SKIPPED, no editor host: ${host.split('\n')[0]!}`, () => undefined);
  });
}
