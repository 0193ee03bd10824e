import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runTests } from '@vscode/test-electron';
import { PROJECT_FOLDER as project } from '../../truth/support/project.ts';
import { bundleSuite, type Arrange, type SuiteResult } from './run-suite.ts';

/**
 * Runs a suite in an editor that is installed on this machine.
 * @param executable its program
 * @throws Error when it ends without the suite's results
 */
export async function runInInstalled(
  executable: string,
  source: string,
  arrange: Arrange = (workspace) => workspace,
): Promise<SuiteResult[]> {
  const extensionTestsPath = await bundleSuite(source);
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-installed-'));
  const workspace = join(folder, 'workspace');
  cpSync(join(project, 'sample-workspace'), workspace, { recursive: true });
  const results = join(folder, 'results.json');
  try {
    const code = await runTests({
      vscodeExecutablePath: executable,
      extensionDevelopmentPath: project,
      extensionTestsPath,
      launchArgs: [
        arrange(workspace),
        '--disable-extensions',
        `--user-data-dir=${join(folder, 'user')}`,
        `--extensions-dir=${join(folder, 'extensions')}`,
      ],
      extensionTestsEnv: { SELVEDGE_SUITE_RESULTS: results, SELVEDGE_CACHE: join(folder, 'cache') },
    });
    // An extension host that dies may end the window as if all were well: only the results prove the end.
    if (code !== 0 || !existsSync(results)) {
      throw new Error(`${source} did not come to its end in ${executable} (code ${code}).`);
    }
    return JSON.parse(readFileSync(results, 'utf8')) as SuiteResult[];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
