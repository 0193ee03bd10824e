import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startBrowser, workbenchAddress } from './browser.ts';
import { prepareHost } from './prepare.ts';
import { startServer } from './server.ts';

/*
 * Stands where the program of an installed editor would: takes the same arguments, runs them in the npm editor host, and
 * ends with the code of the test run.
 */

const given = process.argv.slice(2);
const argument = (name: string): string => {
  const found = given.find((each) => each.startsWith(`--${name}=`));
  if (found === undefined) throw new Error(`--${name} is missing: ${given.join(' ')}`);
  return found.slice(name.length + 3);
};

const host = await prepareHost();
const data = mkdtempSync(join(tmpdir(), 'selvedge-stand-in-'));
const server = await startServer(host, { folder: data, isTrusting: given.includes('--disable-workspace-trust') });
const browser = await startBrowser(host);
const page = await browser.newPage();
const ended = new Promise<number>((resolve) => void page.exposeFunction('codeAutomationExit', resolve));
await page.exposeFunction('codeAutomationLog', () => undefined);
await page.goto(
  workbenchAddress(server, {
    folder: given.find((each) => !each.startsWith('--'))!,
    extension: argument('extensionDevelopmentPath'),
    tests: argument('extensionTestsPath'),
  }),
);
const code = await ended;
await browser.close();
await server.stop();
rmSync(data, { recursive: true, force: true });
process.exit(code);
