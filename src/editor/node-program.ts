import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { workspace } from 'vscode';
import type { Log } from './log.ts';

const run = promisify(execFile);
const LEAST_MAJOR = 20;

/**
 * The program that runs the photo room: the one that is set, else `node` on the path, else the editor's own runtime.
 * Native image code can clash with a desktop editor's own libraries; in a plain Node it cannot.
 */
export async function findNode(log: Log): Promise<string> {
  const given = workspace.getConfiguration('selvedge').get<string>('node', '').trim();
  for (const program of given === '' ? ['node'] : [given, 'node']) {
    const version = await versionOf(program);
    if (version !== undefined && Number(/^v(\d+)\./.exec(version)?.[1]) >= LEAST_MAJOR) return program;
    const what = version === undefined ? 'cannot be started' : `is ${version}`;
    log.warn(`${program} ${what}; Node ${LEAST_MAJOR} or later is needed.`);
  }
  log.warn('Photos are looked at with the editor’s own runtime.');
  return process.execPath;
}

async function versionOf(program: string): Promise<string | undefined> {
  try {
    return (await run(program, ['--version'], { timeout: 10_000 })).stdout.trim();
  } catch {
    return undefined;
  }
}
