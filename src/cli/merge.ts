import { basename } from 'node:path';
import { INPUT_LIMITS } from '../input-limits.ts';
import { MergeFault, mergeShards } from '../report/merge.ts';
import { readTextFile } from '../session/text-file.ts';
import { BadCall, EXIT } from './exit.ts';
import { exceedsWarnings, MAX_WARNINGS_OPTION } from './max-warnings.ts';
import type { AddCommand } from './run.ts';

export const mergeCommand: AddCommand = (program, streams, done) => {
  program
    .command('merge')
    .description('Put what check --format json --shard printed on several machines together as one check’s JSON.')
    .argument('<report...>', 'the JSON of every shard, in any order')
    .option(...MAX_WARNINGS_OPTION)
    .action(async (paths: string[], { maxWarnings }: { readonly maxWarnings: number }) => {
      const reports: { name: string; text: string }[] = [];
      for (const path of paths) {
        reports.push({ name: basename(path), text: await readTextFile(path, INPUT_LIMITS.shardBytes) });
      }
      const merged = mergeOrRefuse(reports);
      streams.stdout.write(`${merged}\n`);
      const { summary } = JSON.parse(merged) as { summary: { errors: number; warnings: number } };
      done(exceedsWarnings(summary, maxWarnings) ? EXIT.findings : EXIT.clean);
    });
};

function mergeOrRefuse(reports: Parameters<typeof mergeShards>[0]): string {
  try {
    return mergeShards(reports);
  } catch (error) {
    if (error instanceof MergeFault) throw new BadCall(error.message);
    throw error;
  }
}
