// @ts-check
/**
 * Tries spoilt sessions for a while: `fuzz.mjs [--seconds N] [--seed N]`. Every case has a seed and is the same on every
 * machine; a case fails when the chain crashes, leaves a rejection unhandled, answers nonsense or takes over two seconds of
 * the processor. A process of its own tries the cases, so that a crash or a hang is seen from outside.
 */
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundle } from './bundle.mjs';

const { values } = parseArgs({ options: { seconds: { type: 'string' }, seed: { type: 'string' } } });
const seconds = Number(values.seconds ?? 60);
const MOST_PROCESSOR_SECONDS = 2;
/** On a machine that does other things too. */
const MOST_SECONDS = 60;

const worker = fileURLToPath(await bundle('tests/fuzz/worker.ts'));
/** @type {{ seed: number, failure: string }[]} */
const failures = [];
let child = start();
const ends = Date.now() + seconds * 1000;
let seed = Number(values.seed ?? 1);
let tried = 0;
for (; tried === 0 || (Date.now() < ends && failures.length < 10); seed++, tried++) {
  const failure = await tryOne(seed);
  if (failure === undefined) continue;
  failures.push({ seed, failure });
  console.error(`seed ${seed}: ${failure}\n  again: npm run fuzz -- --seconds 0 --seed ${seed}\n`);
}
child.disconnect();
console.log(`fuzzing: ${tried} cases, seeds up to ${seed - 1}, ${failures.length} failed`);
process.exit(failures.length > 0 ? 1 : 0);

function start() {
  return fork(worker, { execArgv: [] });
}

/**
 * @param {number} number
 * @returns {Promise<string | undefined>}
 */
function tryOne(number) {
  return new Promise((resolve) => {
    /** @param {string | undefined} failure @param {boolean} isGone */
    const end = (failure, isGone) => {
      clearTimeout(timer);
      child.removeAllListeners();
      if (isGone) {
        child.kill('SIGKILL');
        child = start();
      }
      resolve(failure);
    };
    const timer = setTimeout(() => end(`no answer after ${MOST_SECONDS} s`, true), MOST_SECONDS * 1000);
    child.on('message', (/** @type {import('../../tests/fuzz/worker.ts').CaseReply} */ reply) => {
      const isSlow = reply.processorSeconds > MOST_PROCESSOR_SECONDS;
      end(
        reply.failure ?? (isSlow ? `took ${reply.processorSeconds.toFixed(1)} s of the processor` : undefined),
        false,
      );
    });
    child.once('exit', (code, signal) => end(`the process ended (${signal ?? code})`, true));
    child.send(number);
  });
}
