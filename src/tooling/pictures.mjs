// @ts-check
/** Takes the README's pictures anew, in a real editor (`tests/editor/pictures.ts`), into `media/readme`. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { importTypeScript } from './bundle.mjs';
import { mustSucceed, node, project } from './steps.mjs';

const MOST_BYTES = 1.5e6;

mustSucceed('Building', node('src/tooling/build.mjs'));
const { prepareHost } = await importTypeScript('tests/editor/host/prepare.ts');
const { takePictures } = await importTypeScript('tests/editor/pictures.ts');
const folder = join(project, 'media', 'readme');
await takePictures(await prepareHost(), folder);
const bytes = readdirSync(folder).reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
console.log(`media/readme: ${(bytes / 1e6).toFixed(2)} MB`);
process.exit(bytes > MOST_BYTES ? 1 : 0);
