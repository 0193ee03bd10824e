import { expect, test } from 'vitest';
import { compose } from './compose.ts';

test.each([['selvedge: 1\n'], ['a: [\n'], ['['.repeat(100_000)]])('leaves the environment as it was: %.12s', (text) => {
  const { env } = process;
  const before = { ...env };
  const { stackTraceLimit } = Error;
  compose(text);
  expect(Error.stackTraceLimit).toBe(stackTraceLimit);
  expect(process.env).toBe(env);
  expect({ ...process.env }).toEqual(before);
});
