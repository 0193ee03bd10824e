// @ts-check
/**
 * Tries spoilt sessions for a while: `fuzz.mjs [--seconds N] [--seed N]`. Every case has a seed and is the same on every
 * machine; a case fails when the chain crashes, leaves a rejection unhandled, answers nonsense, or takes a step
 * of over two seconds of the processor, three times in a row. A process of its own tries the cases, so that a crash or a hang is seen from outside.
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
  const failure = await tryThrice(seed);
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
 * A busy machine makes steps slow; only what is slow each time is the program's own fault.
 * @param {number} number
 * @returns {Promise<string | undefined>}
 */
async function tryThrice(number) {
  let slow = '';
  for (let attempt = 0; attempt < 3; attempt++) {
    const { failure, processorSeconds } = await tryOne(number);
    if (failure !== undefined) return failure;
    if (processorSeconds <= MOST_PROCESSOR_SECONDS) return undefined;
    slow = `a step took ${processorSeconds.toFixed(1)} s of the processor`;
  }
  return slow;
}

/**
 * @param {number} number
 * @returns {Promise<{ failure?: string, processorSeconds: number }>}
 */
function tryOne(number) {
  return new Promise((resolve) => {
    /** @param {{ failure?: string, processorSeconds: number }} outcome @param {boolean} [isGone] */
    const end = (outcome, isGone = false) => {
      clearTimeout(timer);
      child.removeAllListeners();
      if (isGone) {
        child.kill('SIGKILL');
        child = start();
      }
      resolve(outcome);
    };
    /** @param {string} failure */
    const isGone = (failure) => end({ failure, processorSeconds: 0 }, true);
    const timer = setTimeout(() => isGone(`no answer after ${MOST_SECONDS} s`), MOST_SECONDS * 1000);
    child.on('message', (/** @type {import('../../tests/fuzz/worker.ts').CaseReply} */ reply) => end(reply));
    child.once('exit', (code, signal) => isGone(`the process ended (${signal ?? code})`));
    child.send(number);
  });
}
