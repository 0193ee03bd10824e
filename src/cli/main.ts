import { run } from './run.ts';

const interrupt = new AbortController();
process.once('SIGINT', () => {
  interrupt.abort();
});
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader went away (`selvedge check … | head`): nothing is left to say.
  process.exit(error.code === 'EPIPE' ? 0 : 2);
});
process.exitCode = await run(process.argv.slice(2), {
  stdout: process.stdout,
  stderr: process.stderr,
  signal: interrupt.signal,
});
