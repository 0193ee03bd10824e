import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { CompletionItemProvider, Position, TextDocument } from 'vscode';
import { CompletionItem, CompletionItemKind, languages, Range, SnippetString, workspace } from 'vscode';
import { keysBeside } from '../manifest/keys-beside.ts';
import { plainOrQuoted } from '../manifest/new-value.ts';
import { proposalsAt, type Proposal } from '../manifest/proposals.ts';
import { manifestSchema } from '../manifest/schema.ts';
import { placeAt, type TextPlace } from '../manifest/text-place.ts';
import { choosePictures } from '../photos/file-names.ts';
import { RULES } from '../rules/index.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import { plainLine } from './plain-text.ts';
import type { Part } from './part.ts';

const SCHEMA = manifestSchema(RULE_CATALOGUE);
const MOST_PHOTOS = 2000;

/** Proposes keys and values from the schema, and what only this session knows: its photos, people, outputs, findings. */
class ManifestCompletion implements CompletionItemProvider {
  readonly #manifests: OpenManifests;

  constructor(manifests: OpenManifests) {
    this.#manifests = manifests;
  }

  async provideCompletionItems(document: TextDocument, position: Position): Promise<CompletionItem[]> {
    const manifest = await this.#manifests.of(document);
    if (!manifest) return [];
    const offset = document.offsetAt(position);
    const place = placeAt(document.getText(), offset);
    const written = keysAt(document.getText(), place, offset);
    const fromSchema = (proposalsAt(SCHEMA, place)?.proposals ?? []).filter(({ text }) => !written.has(text));
    const proposals = [...(await ownProposals(manifest, place, offset)), ...fromSchema];
    const range = new Range(position.translate(0, -Math.min(position.character, place.typed.length)), position);
    return proposals.map((proposal, index) => itemOf(proposal, place, range, index));
  }
}

function itemOf({ text, help, example }: Proposal, { writes }: TextPlace, range: Range, index: number): CompletionItem {
  const isKey = writes === 'key';
  const item = new CompletionItem(plainLine(text, 100), isKey ? CompletionItemKind.Property : CompletionItemKind.Value);
  item.range = range;
  item.sortText = String(index).padStart(6, '0');
  if (help !== undefined) item.detail = plainLine(help);
  item.insertText = isKey ? new SnippetString().appendText(`${text}: `).appendPlaceholder(example ?? '') : text;
  return item;
}

/** Keys that the frame, or the manifest, has already. */
function keysAt(text: string, { path, writes }: TextPlace, offset: number): ReadonlySet<string> {
  const isOfFrame = path.length === 2 && path[0] === 'frames';
  return writes === 'key' && (path.length === 0 || isOfFrame) ? keysBeside(text, offset) : new Set();
}

/** The frame that the cursor is in, or is adding to, as it was read last: whoever types does not wait for reading. */
function frameBefore(manifest: OpenManifest, offset: number): FrameCheck | undefined {
  const known = Math.min(manifest.unchangedUpTo, offset);
  const place = manifest.lastRead.manifest.frames.findLastIndex(({ range }) => range.start <= known);
  if (place === -1) return undefined;
  const check = manifest.lastReadFrame(place);
  const between = manifest.document.getText().slice(Math.min(check.frame.range.end, known), offset);
  const isOther = /^[ \t]*-/m.test(between.slice(between.indexOf('\n') + 1)) && between.includes('\n');
  return isOther ? undefined : check;
}

async function ownProposals(manifest: OpenManifest, { path, writes }: TextPlace, offset: number): Promise<Proposal[]> {
  const session = manifest.lastRead;
  const [room, , key] = path;
  if (room !== 'frames') return [];
  if (key === 'photo' && writes === 'value') return unlistedPhotos(manifest);
  const check = frameBefore(manifest, offset);
  if (key === 'subjects') {
    const photo = check?.frame.photo.value ?? photoBefore(manifest.document.getText().slice(0, offset));
    const people = session.people.photos.get(photo)?.people ?? [];
    const across = [...people].sort((one, other) => one.box[0] + one.box[2] / 2 - other.box[0] - other.box[2] / 2);
    return across.map(({ id }, place) => ({
      text: String(id),
      help: `${ordinal(place + 1)} of ${people.length} from the left`,
    }));
  }
  if (key === 'allow' && writes === 'key') {
    const found = (check?.findings ?? []).filter(({ rule }) => RULES.some(({ id }) => id === rule));
    const keys = found.map(({ rule, joint, message }): Proposal => ({
      text: joint === undefined ? rule : `${rule}/${joint}`,
      help: message,
      example: '"say why"',
    }));
    const rules = RULES.map(({ id, summary }): Proposal => ({ text: id, help: summary, example: '"say why"' }));
    return [...new Map([...rules, ...keys].map((each) => [each.text, each])).values()];
  }
  if (key === 'deliver' && writes === 'key') {
    return [...session.manifest.deliver.keys()].map((text) => ({ text, example: '{ x: 0, y: 0, w: 1, h: 1 }' }));
  }
  return [];
}

function ordinal(place: number): string {
  return ['first', 'second', 'third'][place - 1] ?? `number ${place}`;
}

/** The photo of the frame that is being written: while it is, it may be no frame that can be read. */
function photoBefore(text: string): string {
  return /.*\bphoto:[ \t]*["']?([^"'\r\n]*)/s.exec(text)?.[1]?.trim() ?? '';
}

/** Pictures of the photos folder that no frame has yet. */
async function unlistedPhotos({ lastRead }: OpenManifest): Promise<Proposal[]> {
  const { photosFolder, manifest } = lastRead;
  if (!('path' in photosFolder) || !workspace.isTrusted) return [];
  const listed = new Set(manifest.frames.map(({ photo }) => photo.value));
  const root = photosFolder.path;
  const entries = await readdir(root, { recursive: true, withFileTypes: true }).catch(() => []);
  const names = entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(join(root, '/').length).replaceAll('\\', '/'));
  return choosePictures(names)
    .pictures.filter((name) => !listed.has(name))
    .sort()
    .slice(0, MOST_PHOTOS)
    .map((name) => ({ text: plainOrQuoted(name), help: 'in the photos folder, not listed yet' }));
}

export function complete(manifests: OpenManifests): Part {
  return languages.registerCompletionItemProvider(MANIFEST_FILES, new ManifestCompletion(manifests), ' ', '[', '{');
}
