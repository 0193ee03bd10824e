import { diagnostics } from './diagnostics.ts';
import { runAll } from './testing.ts';

/** The first tests of the trusted suite: enough to know that an editor runs suites at all. */
export async function run(): Promise<void> {
  await runAll(diagnostics.slice(0, 3));
}
