import type { CancellationToken, Position, TextDocument } from 'vscode';
import { Hover, languages, MarkdownString, workspace, type HoverProvider } from 'vscode';
import type { Size } from '../geometry/shapes.ts';
import { factsOf } from '../session/frame-facts.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { signalOf } from './cancelling.ts';
import { messageOf, type Log } from './log.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { PhotoRoom } from './photo-room.ts';
import { rangeIn } from './places.ts';
import { markdownText } from './plain-text.ts';
import { photoPathOf, thumbnailOf } from './thumbnails.ts';
import type { Part } from './part.ts';

/**
 * Pixels of the page. A hover scrolls when it is higher than 250 (in an editor of up to 1000), and the editor puts what is
 * found there above ours and what a link does below: the picture gets what is left.
 */
const ROOM = { width: 360, height: 228, forLink: 32, forFinding: 66, least: 110 };

/** Over a photo's name, a crop or a turn: the picture as it will be delivered, and what it comes to. */
class FrameHover implements HoverProvider {
  readonly #manifests: OpenManifests;
  readonly #room: PhotoRoom;
  readonly #log: Log;

  constructor(manifests: OpenManifests, room: PhotoRoom, log: Log) {
    this.#manifests = manifests;
    this.#room = room;
    this.#log = log;
  }

  async provideHover(document: TextDocument, position: Position, token: CancellationToken): Promise<Hover | undefined> {
    const manifest = await this.#manifests.of(document);
    const offset = document.offsetAt(position);
    const check = manifest?.framesIn(offset, offset)[0];
    if (!manifest || !check) return undefined;
    const { photo, crop, straighten } = check.frame;
    const place = [photo, crop, straighten].find(
      (located) => located && located.key.start <= offset && offset <= located.range.end,
    );
    if (!place) return undefined;
    const found = check.findings.filter(
      ({ range, allowed }) => allowed === undefined && range.start <= offset && offset <= range.end,
    );
    const taken = (place === photo ? ROOM.forLink : 0) + found.length * ROOM.forFinding;
    const picture = await this.#picture(manifest, check, ROOM.height - taken, signalOf(token));
    return new Hover(
      plainMarkdown(table(picture, factCells(manifest, check))),
      rangeIn(document, { start: place.key.start, end: place.range.end }),
    );
  }

  async #picture(
    manifest: OpenManifest,
    check: FrameCheck,
    height: number,
    signal: AbortSignal,
  ): Promise<string | undefined> {
    if (!workspace.isTrusted) return undefined;
    try {
      const path = await photoPathOf(manifest.session, check.frame.photo.value);
      const address = path === undefined ? undefined : await thumbnailOf(this.#room, path, check, signal);
      if (address === undefined) return undefined;
      const pixels = factsOf(manifest.session, check, manifest.sizeOf(check.frame.photo.value)).pixels;
      // In a table a bar is written with a stroke before it.
      return `![the picture as it will be delivered](${address}\\|height=${heightOnPage(pixels, height)})`;
    } catch (error) {
      if (!signal.aborted) this.#log.warn(`${check.frame.name}: ${messageOf(error)}`);
      return undefined;
    }
  }
}

/** As high as there is room, unless it is wider then than there is. */
function heightOnPage(crop: Size | undefined, room: number): number {
  const height = Math.max(ROOM.least, room);
  return crop ? Math.round(Math.min(height, (ROOM.width * crop.height) / crop.width)) : height;
}

/** Picture and words side by side. */
function table(picture: string | undefined, facts: readonly string[]): string {
  const cells = [...(picture === undefined ? [] : [picture]), facts.join(' · ')];
  const row = (each: readonly string[]): string => `| ${each.join(' | ')} |`;
  return [row(cells.map(() => ' ')), row(cells.map(() => ':--')), row(cells)].join('\n');
}

/** What is told of the frame, each where it is known. */
function factCells(manifest: OpenManifest, check: FrameCheck): string[] {
  const size = manifest.sizeOf(check.frame.photo.value);
  const { length, shape, pixels, overHead, underFeet, beside, people } = factsOf(manifest.session, check, size);
  const told = check.findings.filter(({ allowed }) => allowed === undefined);
  const facts = [
    length,
    shape,
    pixels && `${pixels.width} × ${pixels.height} px`,
    people === undefined ? undefined : people === 1 ? '1 person' : `${people} people`,
    check.frame.final?.value === true ? 'approved' : undefined,
    overHead === undefined ? undefined : `over the head ${margin(overHead)}`,
    underFeet === undefined ? undefined : `under the feet ${margin(underFeet)}`,
    beside && `left of the people ${margin(beside.left)}, right ${margin(beside.right)}`,
    told.length === 0 ? 'nothing found' : `found: ${[...new Set(told.map(({ rule }) => rule))].join(', ')}`,
  ];
  const name = `**${markdownText(check.frame.name, 80)}**`;
  return [name, ...facts.filter((fact) => fact !== undefined).map((fact) => markdownText(fact))];
}

function margin(percent: number): string {
  return percent < 0 ? 'cut' : `${percent} %`;
}

/** Markdown that can show pictures and tables, and nothing that acts. */
function plainMarkdown(text: string): MarkdownString {
  const markdown = new MarkdownString(text);
  markdown.isTrusted = false;
  markdown.supportHtml = false;
  return markdown;
}

export function showHovers(manifests: OpenManifests, room: PhotoRoom, log: Log): Part {
  return languages.registerHoverProvider(MANIFEST_FILES, new FrameHover(manifests, room, log));
}
