// @ts-check
/** Takes the README's pictures anew, in a real editor (`tests/editor/pictures.ts`), into `media/readme`, and the walkthrough's. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { importTypeScript } from './bundle.mjs';
import { mustSucceed, node, project } from './steps.mjs';

const MOST_BYTES = 1.5e6;

mustSucceed('Building', node('src/tooling/build.mjs'));
const { prepareHost } = await importTypeScript('tests/editor/host/prepare.ts');
const { takePictures } = await importTypeScript('tests/editor/pictures.ts');
const folders = ['readme', 'walkthrough'].map((name) => join(project, 'media', name));
await takePictures(await prepareHost(), ...folders);
const files = folders.flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)));
const bytes = files.reduce((sum, path) => sum + statSync(path).size, 0);
console.log(`pictures: ${(bytes / 1e6).toFixed(2)} MB`);
process.exit(bytes > MOST_BYTES ? 1 : 0);
