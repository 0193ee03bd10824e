// @ts-check
/** Builds, and makes the one package that an editor installs: `dist/selvedge-PLATFORM-VERSION.vsix`. */
import { relative } from 'node:path';
import { mustSucceed, node, project } from './steps.mjs';

mustSucceed('Installing', node('src/tooling/install-if-missing.mjs'));
mustSucceed('Building', node('src/tooling/build.mjs'));

const { makePackage } = await import('./package/make.mjs');
const { path, bytes, parts } = await makePackage();
console.log(`${relative(project, path)}: ${(bytes / 1e6).toFixed(1)} MB, ${parts.length} parts`);
