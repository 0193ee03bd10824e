import { join } from 'node:path';
import { chromium, type Browser } from 'playwright-core';
import type { EditorHost } from './prepare.ts';
import type { EditorServer } from './server.ts';

/** A headless browser that can reach nothing but this machine. */
export async function startBrowser({ browserFolder }: EditorHost): Promise<Browser> {
  return chromium.launch({
    executablePath: join(browserFolder, 'chromium'),
    headless: true,
    env: {
      ...(process.env as Record<string, string>),
      LD_LIBRARY_PATH: join(browserFolder, 'lib'),
      FONTCONFIG_FILE: join(browserFolder, 'fonts.conf'),
    },
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-dev-shm-usage',
      '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1',
    ],
  });
}

export interface WorkbenchPage {
  /** A folder, or a `.code-workspace` file that names several. */
  readonly folder: string;
  readonly openFile?: string;
  /** The extension's source tree; absent where the extension is installed. */
  readonly extension?: string;
  /** A module whose `run()` is called in the extension host. */
  readonly tests?: string;
}

export function workbenchAddress({ port }: EditorServer, page: WorkbenchPage): string {
  const remote = (path: string): string => `vscode-remote://127.0.0.1:${port}${path}`;
  const payload = [
    ...(page.openFile === undefined ? [] : [['openFile', remote(page.openFile)]]),
    ...(page.extension === undefined ? [] : [['extensionDevelopmentPath', remote(page.extension)]]),
    ...(page.tests === undefined ? [] : [['extensionTestsPath', remote(page.tests)]]),
  ];
  const opened = page.folder.endsWith('.code-workspace') ? 'workspace' : 'folder';
  const query = new URLSearchParams({ [opened]: page.folder, payload: JSON.stringify(payload) });
  return `http://127.0.0.1:${port}/?${query.toString().replaceAll('+', '%20')}`;
}
