// @ts-check
/**
 * Runs every bench of tests/bench, or those that are named, and writes their sections into docs/benchmarks.md. The sections
 * of the others stay as they are; each says when it was made, and on what. Some run what is built: `npm run bench` builds first.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { arch, availableParallelism, cpus, platform, totalmem } from 'node:os';
import { join } from 'node:path';
import { importTypeScript } from './bundle.mjs';
import { mustSucceed, node, project } from './steps.mjs';

const PAGE = join(project, 'docs', 'benchmarks.md');
/** The line that ends a section. */
const ORIGIN = /^\*From tests\/bench\/([\w-]+)\.ts,.*\*$/m;

const asked = process.argv.slice(2);
const names = readdirSync(join(project, 'tests', 'bench'))
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.slice(0, -'.ts'.length))
  .sort();
const chosen = names.filter((name) => asked.length === 0 || asked.includes(name));
const [first, ...others] = chosen;
if (first !== undefined && others.length === 0) await runOne(first);
// Each in a process of its own: neither memory nor compiled code of one is another's.
else for (const name of chosen) mustSucceed(`The bench ${name}`, node('src/tooling/bench.mjs', [name]));

/** @param {string} name */
async function runOne(name) {
  const bench = await importTypeScript(`tests/bench/${name}.ts`);
  if (typeof bench['run'] !== 'function') return;
  console.error(`bench: ${name}`);
  const began = Date.now();
  const text = String(await bench['run']()).trim();
  console.log(`${text}\n`);
  const seconds = Math.round((Date.now() - began) / 1000);
  const sections = knownSections();
  sections.set(name, `${text}\n\n*From tests/bench/${name}.ts, on ${today()}, in ${seconds} s; ${machine()}.*`);
  const kept = names.flatMap((each) => sections.get(each) ?? []);
  writeFileSync(PAGE, [heading(), ...kept].join('\n\n') + '\n');
  console.error(`written: ${PAGE}`);
}

/** @returns {Map<string, string>} by the bench that made it */
function knownSections() {
  const known = new Map();
  if (!existsSync(PAGE)) return known;
  let rest = readFileSync(PAGE, 'utf8').replace(/^[^]*?(?=^## )/m, '');
  for (let end = ORIGIN.exec(rest); end; end = ORIGIN.exec(rest)) {
    const after = end.index + end[0].length;
    known.set(end[1], rest.slice(0, after).trim());
    rest = rest.slice(after);
  }
  return known;
}

function today() {
  return new Date().toISOString().slice(0, 10);
}

function heading() {
  const { version } = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8'));
  return [
    '# Benchmarks',
    '',
    'Written by `npm run bench`, or `npm run bench -- NAME` for one of tests/bench; every figure can be made again.',
    `Selvedge ${version}.`,
  ].join('\n');
}

function machine() {
  const processor = cpus()[0]?.model.trim() ?? 'unknown processor';
  const memory = Math.round(totalmem() / 2 ** 30);
  return `${processor}, ${availableParallelism()} cores, ${memory} GB, ${platform()} ${arch()}, Node ${process.version}`;
}
