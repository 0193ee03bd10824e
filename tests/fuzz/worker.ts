import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { tryCase } from './case.ts';

/** The process that may crash or hang: it is told a seed, tries it, and says how that went. */
export interface CaseReply {
  readonly seed: number;
  /** Of this process, in seconds. */
  readonly processorSeconds: number;
  readonly failure?: string;
}

serve();

function serve(): void {
  process.env['SELVEDGE_CACHE'] = mkdtempSync(join(tmpdir(), 'selvedge-fuzz-cache-'));
  let unhandled: string | undefined;
  process.on('unhandledRejection', (error) => {
    unhandled = `unhandled rejection: ${String(error)}`;
  });
  process.on('disconnect', () => process.exit(0));
  process.on('message', (seed: number) => {
    const began = process.cpuUsage();
    void tryCase(seed)
      .then(() => undefined, describe)
      .then((failure) => {
        const { user, system } = process.cpuUsage(began);
        const found = failure ?? unhandled;
        unhandled = undefined;
        const reply: CaseReply = { seed, processorSeconds: (user + system) / 1e6, ...(found && { failure: found }) };
        process.send?.(reply);
      });
  });
}

function describe(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
