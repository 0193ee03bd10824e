// @ts-check
/** The texts that are made for the package: its manifest, its README, and the two parts that the format asks for. */
import { readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { project } from '../steps.mjs';

/** Of package.json: what concerns an editor. */
const KEPT = [
  'name',
  'displayName',
  'description',
  'version',
  'publisher',
  'license',
  'type',
  'engines',
  'main',
  'icon',
  'categories',
  'keywords',
  'extensionKind',
  'activationEvents',
  'capabilities',
  'contributes',
];

/** The platform's name, as editors have it. */
export const PLATFORM = `${process.platform}-${process.arch}`;

/** @returns {Record<string, any>} */
export function packagedManifest() {
  const own = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8'));
  return Object.fromEntries(KEPT.flatMap((key) => (key in own ? [[key, own[key]]] : [])));
}

/** What of the README concerns who has the package alone. */
const SECTIONS = ['In the editor', 'Rules', 'Privacy', 'Models'];

/** An editor shows this page by itself: pictures are in it, and links to other files are plain words. */
export function packagedReadme() {
  const [head = '', ...sections] = readFileSync(join(project, 'README.md'), 'utf8').split(/^## /m);
  const kept = SECTIONS.map((title) => sections.find((section) => section.startsWith(`${title}\n`)));
  const missing = SECTIONS.filter((_, index) => kept[index] === undefined);
  if (missing.length > 0) throw new Error(`README.md has no section called ${missing.join(', ')}.`);
  const text = [head.split('```')[0], ...kept.map((section) => `## ${section}`)].join('');
  return text
    .replace(/<!--.*?-->\n?/gs, '')
    .replace(/!\[([^\]]*)\]\(([^)]+)\)/g, (_, what, path) => `![${what}](${inlined(path)})`)
    .replace(/(?<!!)\[([^\]]+)\]\((?!https:|data:|#)[^)]+\)/g, '$1');
}

const KINDS = /** @type {Readonly<Record<string, string>>} */ ({ '.png': 'image/png', '.jpg': 'image/jpeg' });

/** @param {string} path relative to the project */
function inlined(path) {
  const kind = KINDS[extname(path)];
  if (kind === undefined) throw new Error(`README.md shows ${path}: only PNG and JPEG are shown in an editor.`);
  return `data:${kind};base64,${readFileSync(join(project, path)).toString('base64')}`;
}

/**
 * The package's own description (VSIX manifest schema of 2011).
 * @param {Record<string, any>} manifest
 */
export function vsixManifest(manifest) {
  const { name, version, publisher, displayName, description, categories = [], engines, extensionKind = [] } = manifest;
  const property = (/** @type {string} */ id, /** @type {string} */ value) =>
    `<Property Id="Microsoft.VisualStudio.Code.${id}" Value="${escaped(value)}"/>`;
  const asset = (/** @type {string} */ type, /** @type {string} */ path) =>
    `<Asset Type="Microsoft.VisualStudio.${type}" Path="extension/${path}" Addressable="true"/>`;
  return `<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">
<Metadata>
<Identity Language="en-US" Id="${name}" Version="${version}" Publisher="${publisher}" TargetPlatform="${PLATFORM}"/>
<DisplayName>${escaped(displayName)}</DisplayName>
<Description xml:space="preserve">${escaped(description)}</Description>
<Categories>${escaped(categories.join(','))}</Categories>
<License>extension/LICENSE.txt</License>
<Properties>
${property('Engine', engines.vscode)}
${property('ExtensionKind', extensionKind.join(','))}
</Properties>
</Metadata>
<Installation><InstallationTarget Id="Microsoft.VisualStudio.Code"/></Installation>
<Dependencies/>
<Assets>
${asset('Code.Manifest', 'package.json')}
${asset('Services.Content.Details', 'README.md')}
${asset('Services.Content.Changelog', 'CHANGELOG.md')}
${asset('Services.Content.License', 'LICENSE.txt')}
</Assets>
</PackageManifest>
`;
}

/**
 * The kinds of the parts (ECMA-376, part 2: Open Packaging Conventions).
 * @param {readonly string[]} paths
 */
export function contentTypes(paths) {
  const kinds = /** @type {Readonly<Record<string, string>>} */ ({
    '.json': 'application/json',
    '.md': 'text/markdown',
    '.txt': 'text/plain',
    '.css': 'text/css',
    '.svg': 'image/svg+xml',
    '.js': 'application/javascript',
    '.cjs': 'application/javascript',
    '.mjs': 'application/javascript',
    '.vsixmanifest': 'text/xml',
    ...KINDS,
  });
  const ends = [...new Set(paths.map((path) => extname(path)).filter((end) => end !== ''))].sort();
  const defaults = ends.map(
    (end) => `<Default Extension="${end.slice(1)}" ContentType="${kinds[end] ?? 'application/octet-stream'}"/>`,
  );
  // A part without an ending needs its own entry.
  const overrides = paths
    .filter((path) => extname(path) === '')
    .map((path) => `<Override PartName="/${escaped(path)}" ContentType="text/plain"/>`);
  return `<?xml version="1.0" encoding="utf-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
${[...defaults, ...overrides].join('\n')}
</Types>
`;
}

/** @param {string} text */
function escaped(text) {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
