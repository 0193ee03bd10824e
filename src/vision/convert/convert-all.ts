import { createHash } from 'node:crypto';
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { MODEL_NAMES, MODEL_OUTPUTS, MODEL_SOURCE, type ModelName } from '../models/catalogue.ts';
import { convertGraphModel } from './convert.ts';
import type { GraphModelFile } from './graph.ts';

/** Goes up when the converter writes something else for the same source, so that models of an older build are redone. */
const CONVERTER_VERSION = 2;

/**
 * Converts all models into `targetFolder` unless they are there already, made by this converter from this source.
 * @param sourceFolder the folder with the package's `.json` and `.bin` files
 * @returns the names of the models that were converted
 */
export async function convertAllModels(sourceFolder: string, targetFolder: string): Promise<ModelName[]> {
  await mkdir(targetFolder, { recursive: true });
  const stampFile = join(targetFolder, 'converted.json');
  const known = await readStamps(stampFile);
  const stamps: Record<string, string> = {};
  const converted: ModelName[] = [];
  for (const name of MODEL_NAMES) {
    const text = await readFile(join(sourceFolder, `${name}.json`), 'utf8');
    const weights = await readFile(join(sourceFolder, `${name}.bin`));
    const source = createHash('sha256').update(text).update(weights).digest('hex');
    stamps[name] = `converter ${CONVERTER_VERSION}, source ${source}`;
    if (known[name] === stamps[name]) continue;
    const metadata = { source: `${MODEL_SOURCE.package} ${MODEL_SOURCE.version}`, licence: MODEL_SOURCE.licence };
    const model = convertGraphModel(JSON.parse(text) as GraphModelFile, weights, {
      name,
      metadata,
      outputs: MODEL_OUTPUTS[name],
    });
    await replaceFile(join(targetFolder, `${name}.onnx`), model);
    converted.push(name);
  }
  if (converted.length > 0) await replaceFile(stampFile, `${JSON.stringify(stamps, undefined, 2)}\n`);
  return converted;
}

async function readStamps(file: string): Promise<Partial<Record<string, string>>> {
  try {
    return JSON.parse(await readFile(file, 'utf8')) as Partial<Record<string, string>>;
  } catch {
    return {};
  }
}

/** Whole or not at all, also when two builds run at once. */
async function replaceFile(file: string, content: string | Uint8Array): Promise<void> {
  const draft = `${file}.${process.pid}.draft`;
  await writeFile(draft, content);
  await rename(draft, file);
}
