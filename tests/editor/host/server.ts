import { execFile, spawn } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { promisify } from 'node:util';
import type { EditorHost } from './prepare.ts';

/** The workbench's quiet settings. */
const SETTINGS = {
  'workbench.startupEditor': 'none',
  'telemetry.telemetryLevel': 'off',
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'update.mode': 'none',
  'git.openRepositoryInParentFolders': 'never',
  'files.autoSave': 'off',
  'editor.lightbulb.enabled': 'on',
  'chat.commandCenter.enabled': false,
};

export interface EditorServer {
  readonly port: number;
  log(): string;
  stop(): Promise<void>;
}

export interface ServerOptions {
  /** Its data, settings and home. */
  readonly folder: string;
  readonly settings?: Readonly<Record<string, unknown>>;
  readonly environment?: Readonly<Record<string, string>>;
  /** Whether opened folders are trusted without asking. */
  readonly isTrusting?: boolean;
}

/**
 * Installs a package for servers that are started with the same folder, as a user would.
 * @throws Error with what the editor says when it refuses the package
 */
export async function installExtension(host: EditorHost, folder: string, packagePath: string): Promise<void> {
  const given = ['--install-extension', packagePath, '--accept-server-license-terms', ...foldersOf(folder)];
  const server = join(host.serverFolder, 'out', 'server-main.js');
  const { stdout, stderr } = await promisify(execFile)(process.execPath, [server, ...given], {
    env: { ...process.env, EXTENSIONS_GALLERY: '{}', HOME: folder },
  });
  if (!/successfully installed/.test(stdout)) throw new Error(`The package was not installed:\n${stdout}${stderr}`);
}

function foldersOf(folder: string): string[] {
  return ['--server-data-dir', join(folder, 'data'), '--extensions-dir', join(folder, 'extensions')];
}

/** @throws Error with the server's log when it does not listen within twenty seconds */
export async function startServer(host: EditorHost, options: ServerOptions): Promise<EditorServer> {
  const { folder, isTrusting = true } = options;
  const data = join(folder, 'data');
  const settings = { ...SETTINGS, 'security.workspace.trust.enabled': !isTrusting, ...options.settings };
  for (const kind of ['Machine', 'User']) {
    mkdirSync(join(data, 'data', kind), { recursive: true });
    writeFileSync(join(data, 'data', kind, 'settings.json'), JSON.stringify(settings));
  }
  const logFile = join(folder, 'server.log');
  const output = openSync(logFile, 'w');
  const child = spawn(
    process.execPath,
    [
      join(host.serverFolder, 'out', 'server-main.js'),
      ...['--host', '127.0.0.1', '--port', '0', '--without-connection-token', '--accept-server-license-terms'],
      ...['--telemetry-level', 'off', ...foldersOf(folder)],
      ...(isTrusting ? ['--disable-workspace-trust'] : []),
    ],
    {
      stdio: ['ignore', output, output],
      // A group of its own: the extension host outlives the page for a while.
      detached: true,
      env: {
        ...process.env,
        EXTENSIONS_GALLERY: '{}',
        HOME: folder,
        SELVEDGE_CACHE: join(folder, 'cache'),
        ...options.environment,
      },
    },
  );
  closeSync(output);
  const log = (): string => readFileSync(logFile, 'utf8');
  const isGone = new Promise<void>((resolve) => child.once('exit', () => { resolve(); })); // prettier-ignore
  const kill = (signal: NodeJS.Signals): void => {
    try {
      if (child.pid !== undefined) process.kill(-child.pid, signal);
    } catch {
      return;
    }
  };
  for (let waited = 0; ; waited += 50) {
    const port = /agent listening on (\d+)/.exec(log())?.[1];
    if (port !== undefined) {
      const stop = async (): Promise<void> => {
        kill('SIGTERM');
        await Promise.race([isGone, sleep(3000)]);
        kill('SIGKILL');
      };
      return { port: Number(port), log, stop };
    }
    if (child.exitCode !== null || waited > 20_000) {
      kill('SIGKILL');
      throw new Error(`The editor's server did not start:\n${log()}`);
    }
    await sleep(50);
  }
}
