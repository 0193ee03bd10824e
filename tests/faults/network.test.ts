import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const PROJECT = join(import.meta.dirname, '../..');

/** Runs Node in an empty network namespace (util-linux, unshare(1)): there is no interface but a loopback that is down. */
function withoutNetwork(...argv: readonly string[]): { readonly status: number | null; readonly said: string } {
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(VITEST|NODE_OPTIONS)/.test(name)));
  const { status, stdout, stderr } = spawnSync('unshare', ['-rn', process.execPath, ...argv], {
    cwd: PROJECT,
    env: { ...env, NO_COLOR: '1' },
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  return { status, said: `${stdout}${stderr}` };
}

/** The namespace is empty indeed: a connection fails before it leaves the machine. */
const PROBE = `
  const { networkInterfaces } = require('node:os');
  const socket = require('node:net').connect({ host: '192.0.2.1', port: 80 });
  socket.on('error', ({ code }) => console.log(code, Object.keys(networkInterfaces()).length));
`;

const hasNamespaces = withoutNetwork('-e', '0').status === 0;
const title = (what: string): string =>
  hasNamespaces ? what : `${what} (skipped: this kernel gives no network namespace)`;

test.skipIf(!hasNamespaces)(title('where nothing is on the network a connection fails'), () => {
  expect(withoutNetwork('-e', PROBE).said).toContain('ENETUNREACH 0');
});

test.skipIf(!hasNamespaces)(title('the tests of init, measure, check, fix and render pass without a network'), () => {
  const files = ['init', 'measure', 'check', 'fix', 'render'].map((command) => `tests/cli/${command}.test.ts`);
  const { status, said } = withoutNetwork('node_modules/vitest/vitest.mjs', 'run', ...files, '--reporter=default');
  expect(said).toMatch(/Tests +\d\d+ passed/);
  expect(said).not.toMatch(/failed|skipped/);
  expect(status).toBe(0);
});

test.skipIf(!hasNamespaces)(title('the built command line checks and plans fixes without a network'), () => {
  const sample = 'sample-workspace/harbour/crops.yaml';
  expect(withoutNetwork('dist/selvedge.js', 'check', sample).status).toBeLessThan(2);
  expect(withoutNetwork('dist/selvedge.js', 'fix', '--dry-run', sample).status).toBeLessThan(2);
});
