import { defineConfig } from 'vitest/config';

const EDITOR = 'tests/editor/**/*.test.ts';

export default defineConfig({
  test: {
    globalSetup: ['tests/setup/temporary-folder.ts'],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    coverage: { provider: 'v8', include: ['src/**/*.ts'], exclude: ['src/**/*.test.ts'] },
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          include: ['src/**/*.test.ts', 'tests/**/*.test.ts'],
          exclude: [EDITOR],
          sequence: { groupOrder: 0 },
        },
      },
      // A workbench, its server and a browser want the machine for themselves. What they show at the second try (the report
      // says so) was slow to be drawn, not wrong.
      {
        extends: true,
        test: { name: 'editor', include: [EDITOR], fileParallelism: false, retry: 1, sequence: { groupOrder: 1 } },
      },
    ],
  },
});
