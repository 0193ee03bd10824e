// @ts-check
import tseslint from 'typescript-eslint';

/**
 * The house plan: which room may import which. A room that is missing from a list is a wall.
 * Every room may import itself; `outside` lists the packages and Node modules that a room may use.
 */
const housePlan = {
  geometry: { rooms: [] },
  people: { rooms: ['geometry'] },
  rules: { rooms: ['people', 'geometry'] },
  search: { rooms: ['rules', 'people', 'geometry'] },
  manifest: { rooms: ['rules', 'geometry'], outside: ['yaml', 'fastest-levenshtein'] },
  photos: { rooms: ['geometry'], outside: ['sharp', 'exifr', 'node:*'] },
  vision: { rooms: ['people', 'geometry', 'photos'], outside: ['onnxruntime-*', 'protobufjs', 'node:*'] },
  history: { rooms: [], outside: ['node:*'] },
  session: {
    rooms: ['geometry', 'people', 'rules', 'search', 'manifest', 'photos', 'vision', 'history'],
    outside: ['node:*'],
  },
  report: {
    rooms: ['session', 'search', 'rules', 'people', 'geometry', 'manifest'],
    outside: ['picocolors'],
  },
  cli: {
    rooms: ['report', 'session', 'search', 'rules', 'people', 'geometry', 'manifest'],
    outside: ['node:*', 'commander', 'cli-progress', 'picocolors'],
  },
  // Of panel/ only the messages; of photos/ only names of files: a picture is touched in the photo room alone.
  editor: {
    rooms: ['report', 'session', 'search', 'rules', 'people', 'geometry', 'manifest', 'panel', 'photos'],
    outside: ['node:*', 'vscode'],
    only: { panel: '*messages.ts', photos: 'file-names.ts' },
  },
  panel: { rooms: ['geometry', 'people', 'rules', 'search'] },
};

const rooms = Object.keys(housePlan);
const packages = [
  'yaml',
  'fastest-levenshtein',
  'sharp',
  'exifr',
  'onnxruntime-*',
  'protobufjs',
  'node:*',
  'picocolors',
  'commander',
  'cli-progress',
  'vscode',
];

const walls = Object.entries(housePlan).map(([room, plan]) => {
  /** @type {readonly string[]} */
  const open = plan.rooms;
  /** @type {readonly string[]} */
  const outside = 'outside' in plan ? plan.outside : [];
  /** @type {Readonly<Record<string, string>>} */
  const only = 'only' in plan ? plan.only : {};
  const closedRooms = rooms.filter((other) => other !== room && !open.includes(other));
  const closedPackages = packages.filter((name) => !outside.includes(name));
  return {
    files: [`src/${room}/**/*.ts`],
    ignores: ['**/*.test.ts'],
    rules: {
      'no-restricted-imports': /** @type {any} */ ([
        'error',
        {
          patterns: [
            {
              group: closedRooms.flatMap((other) => [
                `../${other}/*`,
                `../../${other}/*`,
                `../${other}/**`,
                `../../${other}/**`,
              ]),
              message: `The house plan (DEVELOPERS.md) does not let ${room}/ import this room.`,
            },
            ...Object.entries(only).map(([other, file]) => ({
              group: [`../${other}/**`, `../../${other}/**`, `!../${other}/${file}`, `!../../${other}/${file}`],
              message: `The house plan (DEVELOPERS.md) lets ${room}/ import only ${file} of this room.`,
            })),
            {
              group: closedPackages,
              message: `The house plan (DEVELOPERS.md) does not let ${room}/ use this package.`,
            },
          ],
        },
      ]),
    },
  };
});

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**', 'coverage/**', 'sample-workspace/**', 'demo-output/**'] },
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unnecessary-condition': ['error', { allowConstantLoopConditions: true }],
    },
  },
  ...walls,
  {
    files: ['**/*.js', '**/*.mjs'],
    ...tseslint.configs.disableTypeChecked,
  },
);
