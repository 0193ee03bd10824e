import { prepareHost } from '../editor/host/prepare.ts';
import { runInHost } from '../editor/host/run-suite.ts';
import { firstPictures } from './first-picture.ts';
import { matLatencies } from './mat.ts';
import type { Latency } from '../editor/suite/latency.ts';

/** What a user of the editor waits for, in a real extension host; a Markdown section. */
export async function run(): Promise<string> {
  const host = await prepareHost();
  const rows = [
    ...(await runInHost<Latency[]>(host, 'tests/editor/suite/latency.ts')),
    ...(await matLatencies(host)),
    ...(await firstPictures(host)),
  ];
  return [
    '## The editor',
    '',
    'In the extension host that the tests use, with generated sessions (the photographs are elsewhere) and the sample session.',
    '',
    '| what | milliseconds | median of |',
    '| --- | --- | --- |',
    ...rows.map(
      ({ what, milliseconds, runs }) => `| ${what} | ${milliseconds.toFixed(milliseconds < 10 ? 1 : 0)} | ${runs} |`,
    ),
  ].join('\n');
}
