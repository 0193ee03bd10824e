import type { Node } from 'yaml';
import { isMap } from 'yaml';
import { AliasWalk } from './aliases.ts';
import { Anchors } from './anchors.ts';
import { buildFrames, knownIds } from './build-frame.ts';
import { buildOutputs, buildRules } from './build-header.ts';
import { compose } from './compose.ts';
import { faultProblem, isWarning } from './faults.ts';
import { textStart } from './lines.ts';
import type { Manifest, Problem } from './manifest.ts';
import type { ReadList, ReadMap } from './read-value.ts';
import { entry, writtenMap } from './read-value.ts';
import { Reader } from './read.ts';
import { recover } from './recover.ts';
import { Recovery } from './recovery.ts';
import { isEmptyText } from './ranges.ts';
import { manifestSchema } from './schema.ts';
import type { MapSchema, RuleCatalogue } from './schema-kinds.ts';

/**
 * Reads a manifest. Never throws: what is wrong is in `problems`, ordered by place, and hides nothing else; `frames`
 * has every entry whose photo could be read. `rules` are the rules of this version. All ranges are UTF-16 offsets into
 * `text`.
 */
export function parseManifest(text: string, rules: RuleCatalogue): Manifest {
  const { root, recovery, problems } = readYaml(text);
  if (!root || !isMap(root)) return nothing(text, [...problems, noManifest(root, text)]);
  const anchors = new Anchors(root, text);
  const reader = new Reader(new AliasWalk(anchors), recovery);
  const map = reader.read(root, schemaFor(rules), { key: '' }) as ReadMap;
  const outputs = buildOutputs(entry<ReadMap>(map, 'deliver'));
  const list = entry<ReadList>(map, 'frames');
  const known = knownIds(rules, outputs);
  const frames = buildFrames(list?.value.items ?? [], known, reader);
  const all = [...problems, ...reader.problems].sort((one, other) => one.range.start - other.range.start);
  return {
    text,
    problems: all,
    ...located(map, ['session', 'photos', 'aspect', 'compose']),
    rules: buildRules(entry<ReadMap>(map, 'rules')),
    deliver: outputs,
    frames,
    frameCount: list?.value.count ?? 0,
    ...(list && { framesRange: list.range }),
    shared: anchors.shared(),
    written: writtenMap(map),
    writtenFrames: new Map(list?.value.items.map(({ index, value }) => [index, writtenMap(value as ReadMap)])),
  };
}

/**
 * The same for somebody who reads and hardly ever edits: how things are written, which weighs more than all that they say,
 * is not kept but read again when it is asked for.
 */
export function readManifest(text: string, rules: RuleCatalogue): Manifest {
  const { written, writtenFrames, ...said } = parseManifest(text, rules);
  if (!written) return { ...said, writtenFrames };
  let again: Manifest | undefined;
  const whole = (): Manifest => (again ??= parseManifest(text, rules));
  return {
    ...said,
    get written() {
      return whole().written!;
    },
    writtenFrames: { get: (index) => whole().writtenFrames.get(index) },
  };
}

const schemas = new WeakMap<RuleCatalogue, MapSchema>();

function schemaFor(rules: RuleCatalogue): MapSchema {
  let schema = schemas.get(rules);
  if (!schema) schemas.set(rules, (schema = manifestSchema(rules)));
  return schema;
}

function readYaml(text: string): { root: Node | null; recovery: Recovery; problems: Problem[] } {
  const whole = compose(text);
  const problems = whole.faults.filter(isWarning).map((fault) => faultProblem(fault, text));
  problems.push(...nulProblem(text));
  const { secondDocument } = whole;
  if (secondDocument !== undefined) {
    problems.push({
      code: 'several-documents',
      message: 'A second document begins here, after "---": a manifest is one document. What follows is not read.',
      range: { start: secondDocument, end: Math.min(secondDocument + 3, text.length) },
      severity: 'error',
    });
  }
  if (whole.faults.every(isWarning)) return { root: whole.contents, recovery: new Recovery(), problems };
  const { root, recovery } = recover(text, secondDocument ?? text.length, whole);
  for (const { fault, consequence, frame, key } of recovery.faults) {
    const place = { ...(frame !== undefined && { frame }), ...(key !== undefined && { key }) };
    problems.push({ ...faultProblem(fault, text, consequence), ...place });
  }
  return { root, recovery, problems };
}

/** A NUL may hide the key beside it, which is then told as missing. */
function nulProblem(text: string): Problem[] {
  const start = text.indexOf('\0');
  if (start === -1) return [];
  const message = 'A NUL byte stands here, which belongs in no text: delete it, or save the file anew as UTF-8.';
  return [{ code: 'yaml', message, range: { start, end: start + 1 }, severity: 'error' }];
}

function noManifest(root: Node | null, text: string): Problem {
  const range = { start: textStart(text), end: text.length };
  const begin = 'A manifest begins with "selvedge: 1" and lists its photos under "frames:".';
  if (!root || isEmptyText(root))
    return { code: 'empty', message: `There is nothing here. ${begin}`, range, severity: 'error' };
  return { code: 'not-a-map', message: `This is not a manifest. ${begin}`, range, severity: 'error' };
}

function nothing(text: string, problems: Problem[]): Manifest {
  return {
    text,
    problems,
    rules: new Map(),
    deliver: new Map(),
    frames: [],
    frameCount: 0,
    shared: [],
    writtenFrames: new Map(),
  };
}

type Named = 'session' | 'photos' | 'aspect' | 'compose';

function located(map: ReadMap, names: readonly Named[]): Pick<Manifest, Named> {
  return Object.fromEntries(names.flatMap((name) => (map.entries.has(name) ? [[name, map.entries.get(name)]] : [])));
}
