import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { tryCase } from './case.ts';

/** The process that may crash or hang: it is told a seed, tries it, and says how that went. */
export interface CaseReply {
  readonly seed: number;
  /** Of the slowest step. */
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
    void tryCase(seed)
      .then((processorSeconds) => ({ processorSeconds }), describe)
      .then((outcome) => {
        const reply: CaseReply = { seed, processorSeconds: 0, ...outcome, ...(unhandled && { failure: unhandled }) };
        unhandled = undefined;
        process.send?.(reply);
      });
  });
}

function describe(error: unknown): Pick<CaseReply, 'failure'> {
  return { failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
}
