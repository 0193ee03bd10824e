// @ts-check
/** Runs every bench of tests/bench and writes docs/benchmarks.md. `bench.mjs NAME` runs one and only prints it. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { arch, availableParallelism, cpus, platform, totalmem } from 'node:os';
import { join } from 'node:path';
import { importTypeScript } from './bundle.mjs';
import { project } from './steps.mjs';

const only = process.argv[2];
const names = readdirSync(join(project, 'tests', 'bench'))
  .filter((name) => name.endsWith('.ts') && (only === undefined || name === `${only}.ts`))
  .sort();
const sections = [];
for (const name of names) {
  const bench = await importTypeScript(`tests/bench/${name}`);
  if (typeof bench['run'] !== 'function') continue;
  console.error(`bench: ${name}`);
  const began = Date.now();
  const text = String(await bench['run']()).trim();
  console.log(`${text}\n`);
  sections.push(`${text}\n\n*From tests/bench/${name}, in ${Math.round((Date.now() - began) / 1000)} s.*`);
}
if (only === undefined) {
  const path = join(project, 'docs', 'benchmarks.md');
  writeFileSync(path, [heading(), ...sections].join('\n\n') + '\n');
  console.error(`written: ${path}`);
}

function heading() {
  const { version } = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8'));
  const processor = cpus()[0]?.model.trim() ?? 'unknown processor';
  const memory = Math.round(totalmem() / 2 ** 30);
  return [
    '# Benchmarks',
    '',
    'Written by `npm run bench`; every figure can be made again.',
    '',
    `- Selvedge ${version}, Node ${process.version}, ${platform()} ${arch()}`,
    `- ${processor}, ${availableParallelism()} cores, ${memory} GB`,
    `- ${new Date().toISOString().slice(0, 10)}`,
  ].join('\n');
}
