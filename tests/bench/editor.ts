import { prepareHost } from '../editor/host/prepare.ts';
import { runInHost } from '../editor/host/run-suite.ts';
import type { Latency } from '../editor/suite/latency.ts';

/** What a user of the editor waits for, in a real extension host; a Markdown section. */
export async function run(): Promise<string> {
  const rows = await runInHost<Latency[]>(await prepareHost(), 'tests/editor/suite/latency.ts');
  return [
    '## The editor',
    '',
    'In the extension host that the tests use, with generated sessions (the photographs are elsewhere) and the sample session.',
    '',
    '| what | milliseconds | median of |',
    '| --- | --- | --- |',
    ...rows.map(({ what, milliseconds, runs }) => `| ${what} | ${milliseconds.toFixed(0)} | ${runs} |`),
  ].join('\n');
}
