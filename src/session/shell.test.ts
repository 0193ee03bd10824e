import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { shellPath } from './shell.ts';

test.each([
  ['crops.yaml', 'crops.yaml'],
  ['late light/crops.yaml', "'late light/crops.yaml'"],
  ['Zoë/crops.yaml', "'Zoë/crops.yaml'"],
  ["Zoë's/crops.yaml", String.raw`'Zoë'\''s/crops.yaml'`],
  ['-n/crops.yaml', './-n/crops.yaml'],
  ['~/$HOME/`x`.yaml', "'~/$HOME/`x`.yaml'"],
])('%s', (path, quoted) => {
  expect(shellPath(path, 'linux')).toBe(quoted);
});

test('in double quotes on Windows', () => {
  expect(shellPath('C:\\late light\\crops.yaml', 'win32')).toBe('"C:\\late light\\crops.yaml"');
  expect(shellPath('C:\\light\\crops.yaml', 'win32')).toBe('C:\\light\\crops.yaml');
});

test.skipIf(process.platform === 'win32')('a shell reads back the path that was meant', () => {
  for (const path of ['a b', "it's", 'Straße “1”', 'a"b', 'a$b`c`', 'a\\b', '*?[x]', 'a;b&c|d', '#x', '!y']) {
    expect(execFileSync('sh', ['-c', `printf %s ${shellPath(path)}`], { encoding: 'utf8' })).toBe(path);
  }
});
