import { dirname, join, resolve } from 'node:path';
import { createRequire } from 'node:module';
import { convertAllModels } from '../vision/convert/convert-all.ts';
import { MODEL_SOURCE } from '../vision/models/catalogue.ts';

/** Converts the models into `dist/models` of this project; said on stdout. */
export async function convertModels(projectFolder: string): Promise<void> {
  const require = createRequire(join(projectFolder, 'package.json'));
  const source = join(dirname(require.resolve(`${MODEL_SOURCE.package}/package.json`)), 'models');
  const target = resolve(projectFolder, 'dist', 'models');
  const converted = await convertAllModels(source, target);
  console.log(converted.length === 0 ? 'models: up to date' : `models: converted ${converted.join(', ')}`);
}
