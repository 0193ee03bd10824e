import type { CancellationToken, Position, TextDocument } from 'vscode';
import { Hover, languages, MarkdownString, workspace, type HoverProvider } from 'vscode';
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

/** On the page, so that the table below it is seen too. */
const PICTURE_HEIGHT = 110;

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
    const picture = await this.#picture(manifest, check, signalOf(token));
    const text = [...(picture === undefined ? [] : [picture]), table(manifest, check)].join('\n\n');
    return new Hover(plainMarkdown(text), rangeIn(document, { start: place.key.start, end: place.range.end }));
  }

  async #picture(manifest: OpenManifest, check: FrameCheck, signal: AbortSignal): Promise<string | undefined> {
    if (!workspace.isTrusted) return undefined;
    try {
      const path = await photoPathOf(manifest.session, check.frame.photo.value);
      const address = path === undefined ? undefined : await thumbnailOf(this.#room, path, check, signal);
      return address === undefined
        ? undefined
        : `![the picture as it will be delivered](${address}|height=${PICTURE_HEIGHT})`;
    } catch (error) {
      if (!signal.aborted) this.#log.warn(`${check.frame.name}: ${messageOf(error)}`);
      return undefined;
    }
  }
}

function table(manifest: OpenManifest, check: FrameCheck): string {
  const size = manifest.sizeOf(check.frame.photo.value);
  const { length, shape, pixels, overHead, underFeet, beside, people } = factsOf(manifest.session, check, size);
  const told = check.findings.filter(({ allowed }) => allowed === undefined);
  const facts: Row[] = [
    ['length', length],
    ['shape', shape],
    ['pixels', pixels && `${pixels.width} × ${pixels.height}`],
    ['people', people === undefined ? undefined : String(people)],
    ['approved', check.frame.final?.value === true ? 'yes' : undefined],
  ];
  const margins: Row[] = [
    ['over the head', overHead === undefined ? undefined : margin(overHead)],
    ['under the feet', underFeet === undefined ? undefined : margin(underFeet)],
    ['beside the people', beside && `left ${margin(beside.left)}, right ${margin(beside.right)}`],
    ['found', told.length === 0 ? 'nothing' : [...new Set(told.map(({ rule }) => rule))].join(', ')],
  ];
  const left = facts.flatMap(cells);
  const right = margins.flatMap(cells);
  const lines = Array.from({ length: Math.max(left.length, right.length) }, (_, index) => {
    return `${left[index] ?? NOTHING} ${right[index] ?? NOTHING} |`;
  });
  const head = `| ${markdownText(check.frame.name, 80)} | | | |`;
  return [head, '| :-- | :-- | :-- | :-- |', ...lines].join('\n');
}

/** Two empty cells. */
const NOTHING = '| |';

/** What is told of the frame, and its value where it is known. */
type Row = readonly [name: string, value: string | undefined];

function cells([name, value]: Row): string[] {
  return value === undefined ? [] : [`| ${name} | ${markdownText(value)}`];
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
