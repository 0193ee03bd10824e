import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { build } from 'esbuild';
import { PROJECT_FOLDER as project } from '../../truth/support/project.ts';
import { startBrowser, workbenchAddress } from './browser.ts';
import type { EditorHost } from './prepare.ts';
import { startServer } from './server.ts';

export interface SuiteResult {
  readonly name: string;
  readonly error?: string;
  /** Why it cannot be done on this machine. */
  readonly skipped?: string;
}

/** Changes the copy of the sample sessions before it is opened; gives the folder or `.code-workspace` file to open. */
export type Arrange = (workspace: string) => string;

const LONGEST = 300_000;

/** Bundles a suite, runs it inside a real extension host, and brings back how each of its tests went. */
export async function runSuite(
  host: EditorHost,
  source: string,
  isTrusting = true,
  arrange?: Arrange,
): Promise<SuiteResult[]> {
  return runInHost<SuiteResult[]>(host, source, isTrusting, arrange);
}

/** The same for any module: what it has written into `SELVEDGE_SUITE_RESULTS`. */
export async function runInHost<Result>(
  host: EditorHost,
  source: string,
  isTrusting = true,
  arrange: Arrange = (workspace) => workspace,
): Promise<Result> {
  const bundle = await bundleSuite(source);
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-editor-'));
  const workspace = join(folder, 'workspace');
  cpSync(join(project, 'sample-workspace'), workspace, { recursive: true });
  const opened = arrange(workspace);
  const resultsFile = join(folder, 'results.json');
  const server = await startServer(host, { folder, isTrusting, environment: { SELVEDGE_SUITE_RESULTS: resultsFile } });
  const browser = await startBrowser(host);
  const said: string[] = [];
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    const ended = new Promise<void>((resolve) => {
      void page.exposeFunction('codeAutomationExit', () => { resolve(); }); // prettier-ignore
    });
    await page.exposeFunction('codeAutomationLog', (kind: string, given: unknown[]) => {
      said.push(`${kind} ${given.map(String).join(' ')}`.slice(0, 500));
    });
    await page.goto(workbenchAddress(server, { folder: opened, extension: project, tests: bundle }));
    await Promise.race([ended, sleep(LONGEST)]);
    // An extension host that dies ends the window as if all were well: only the results prove the end.
    if (!existsSync(resultsFile)) {
      throw new Error(
        `The suite ${source} did not come to its end.\n${said.slice(-20).join('\n')}\n${server.log().slice(-2000)}`,
      );
    }
    return JSON.parse(readFileSync(resultsFile, 'utf8')) as Result;
  } finally {
    await browser.close();
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** @returns the path of a module with the suite's `run` */
export async function bundleSuite(source: string): Promise<string> {
  const bundle = join(project, 'dist', 'tests', source.replaceAll('/', '-').replace(/\.ts$/, '.cjs'));
  await build({
    absWorkingDir: project,
    entryPoints: [source],
    outfile: bundle,
    bundle: true,
    platform: 'node',
    target: 'node20.9',
    format: 'cjs',
    external: ['vscode'],
    logLevel: 'warning',
  });
  return bundle;
}
