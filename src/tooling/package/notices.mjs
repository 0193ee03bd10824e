// @ts-check
/** The licences of everything that the package holds, in one text. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { project } from '../steps.mjs';
import { describe, folderOf } from './libraries.mjs';

const LICENCE = /^(?:licen[cs]e|copying)(?:\.\w+)?$/i;

/**
 * @param {readonly string[]} names of npm packages
 * @returns {string}
 */
export function noticesOf(names) {
  const notice = readFileSync(join(project, 'NOTICE'), 'utf8').trim();
  return [notice, ...[...names].sort().map(noticeOf)].join(`\n\n${'-'.repeat(80)}\n\n`) + '\n';
}

/** @param {string} name */
function noticeOf(name) {
  const { version = '', license = 'unknown' } = describe(name);
  const folder = folderOf(name);
  const file = readdirSync(folder).find((each) => LICENCE.test(each));
  const text = file === undefined ? without(name, license) : readFileSync(join(folder, file), 'utf8').trim();
  return `${name} ${version}\n${license}\n\n${text}`;
}

/**
 * Some packages name their licence and bring no text of it.
 * @param {string} name
 * @param {string} licence
 */
function without(name, licence) {
  if (name.startsWith('@img/sharp-libvips-')) {
    return [
      'The texts of the GNU Lesser General Public License and of the General Public License that it builds on are in',
      'licences/. The library is linked while running; its file may be replaced by another build of it.',
      '',
      readFileSync(join(folderOf(name), 'README.md'), 'utf8').trim(),
    ].join('\n');
  }
  if (licence !== 'MIT') throw new Error(`${name} has no text of its licence (${licence}).`);
  const { author } = /** @type {{ author?: string | { name?: string } }} */ (describe(name));
  const holder = name.startsWith('onnxruntime-')
    ? 'Microsoft Corporation'
    : typeof author === 'string'
      ? author
      : author?.name;
  return mit(holder ?? `the authors of ${name}`);
}

/** @param {string} holder */
function mit(holder) {
  const own = readFileSync(join(project, 'LICENSE'), 'utf8');
  const terms = own.slice(own.indexOf('Permission is hereby granted')).trim();
  return `MIT License\n\nCopyright (c) ${holder}\n\n${terms}`;
}
