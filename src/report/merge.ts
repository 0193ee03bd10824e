import { countFindings } from '../session/counts.ts';
import { JSON_FORMAT } from './json.ts';
import { printableJson } from './printable.ts';

/** Why reports are not the shards of one check. */
export class MergeFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'MergeFault';
  }
}

type Found = Parameters<typeof countFindings>[0][number];
type ManifestReport = Found & { readonly path: string };

interface ShardReport {
  readonly shard: { readonly number: number; readonly of: number };
  readonly manifests: readonly ManifestReport[];
}

/**
 * The JSON of a whole check from the JSON of all its shards, in any order: the first one's findings about each session,
 * and the frames of all, one behind the other. It is the same text that an unshared check prints.
 * @param given name and text of each report
 * @throws MergeFault when one is missing, stands twice, or is of another check
 */
export function mergeShards(given: readonly { readonly name: string; readonly text: string }[]): string {
  const shards = given.map(({ name, text }) => ({ name, ...readShard(name, text) }));
  shards.sort((one, other) => one.shard.number - other.shard.number);
  const [first] = shards;
  if (!first) throw new MergeFault('There is nothing to merge.');
  const { of } = first.shard;
  for (const { name, shard, manifests } of shards) {
    const isSame = shard.of === of && manifests.length === first.manifests.length;
    if (isSame && manifests.every(({ path }, place) => path === first.manifests[place]!.path)) continue;
    throw new MergeFault(`${name} is a shard of another check than ${first.name}.`);
  }
  const numbers = shards.map(({ shard }) => shard.number);
  for (let number = 1; number <= of; number++) {
    const times = numbers.filter((one) => one === number).length;
    if (times === 1) continue;
    throw new MergeFault(`Shard ${number}/${of} ${times === 0 ? 'is missing' : 'was given more than once'}.`);
  }
  const manifests = first.manifests.map((manifest, place) => ({
    ...manifest,
    frames: shards.flatMap((shard) => shard.manifests[place]!.frames),
  }));
  return printableJson(JSON.stringify({ selvedge: JSON_FORMAT, manifests, summary: countFindings(manifests) }));
}

function readShard(name: string, text: string): ShardReport {
  let report: Partial<ShardReport & { readonly selvedge: number }> | null;
  try {
    report = JSON.parse(text) as typeof report;
  } catch {
    throw new MergeFault(`${name} is not JSON. Give what check --format json --shard printed.`);
  }
  const { selvedge, shard, manifests } = report ?? {};
  if (selvedge === JSON_FORMAT && isShard(shard) && Array.isArray(manifests) && manifests.every(isManifest)) {
    return { shard, manifests };
  }
  throw new MergeFault(`${name} is no shard of a check. Give what check --format json --shard printed.`);
}

function isShard(shard: unknown): shard is ShardReport['shard'] {
  const { number, of } = (shard ?? {}) as Partial<ShardReport['shard']>;
  return Number.isInteger(number) && Number.isInteger(of) && number! >= 1 && number! <= of! && of! <= 99_999;
}

function isManifest(manifest: unknown): manifest is ManifestReport {
  const { path, findings, frames } = (manifest ?? {}) as Partial<ManifestReport>;
  const isFrame = (frame: Partial<Found['frames'][number]> | null): boolean => Array.isArray(frame?.findings);
  return typeof path === 'string' && Array.isArray(findings) && Array.isArray(frames) && frames.every(isFrame);
}
