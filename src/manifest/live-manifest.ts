import type { Node } from 'yaml';
import { knownIds } from './build-frame.ts';
import { entriesOf, type FrameEntry } from './frame-entries.ts';
import { frameLines, type FrameLines } from './frame-list.ts';
import type { Located, Manifest, Output, Problem } from './manifest.ts';
import { isPlainWords, plainValueAt } from './plain-edit.ts';
import { parseManifest } from './parse.ts';
import { countBelow, PrefixSums } from './prefix-sums.ts';
import { relocate, type Move } from './relocate.ts';
import { readEntryNode, rereadFrame } from './reread-frame.ts';
import type { RuleCatalogue } from './schema-kinds.ts';
import { applyEdits, type TextEdit } from './text-edit.ts';
import type { WrittenMap } from './written.ts';

/** What a manifest says outside its readable frames. */
export interface Surroundings {
  readonly text: string;
  readonly photos: Located<string> | undefined;
  readonly outputs: readonly Output[];
  /** Of no entry, or of an entry that is no readable frame. */
  readonly problems: readonly Problem[];
}

/** Members of a manifest that are not moved as they are. */
const APART: ReadonlySet<string> = new Set(['text', 'problems', 'frames', 'written', 'writtenFrames']);
type Header = Omit<Manifest, 'text' | 'problems' | 'frames' | 'written' | 'writtenFrames'>;

/**
 * A manifest that is being edited. A change inside one plain value of a frame (a number, a word) has that frame read
 * again and nothing else; after any other change the whole is read when somebody asks. What it says is at every moment
 * what `parseManifest` says of the same text.
 */
export class LiveManifest {
  readonly #rules: RuleCatalogue;
  #text: string;
  /** Of the last reading of the whole; offsets below are meant so unless they say otherwise. */
  #whole: Manifest;
  #entries: FrameEntry[];
  #outside: readonly Problem[] = [];
  #starts: number[];
  /** By how much each frame has grown since. */
  #growth: PrefixSums;
  /** Looked up with the first edit: who only reads needs none. */
  #knownLines: { readonly lines: FrameLines | undefined } | undefined;
  #isWholeStale = false;
  #hasGrown = false;
  #present: Manifest | undefined;

  /** @param manifest as `parseManifest` gave it, with the same rules */
  constructor(manifest: Manifest, rules: RuleCatalogue) {
    this.#rules = rules;
    this.#text = manifest.text;
    this.#whole = manifest;
    this.#entries = [];
    this.#starts = [];
    this.#growth = new PrefixSums(0);
    this.#take(manifest);
  }

  get text(): string {
    return this.#text;
  }

  /** All readable frames, in the order of the manifest. */
  get entries(): readonly FrameEntry[] {
    this.#refresh();
    return this.#entries;
  }

  /** The manifest as it is, all ranges in the present text. */
  get manifest(): Manifest {
    this.#refresh();
    return (this.#present ??= this.#hasGrown ? this.#relocated() : this.#whole);
  }

  /** The last whole reading: what it says besides the frames is still true, but its ranges may have moved. */
  get header(): Manifest {
    this.#refresh();
    return this.#whole;
  }

  /** What stands around the frames, with its ranges in the present text. */
  get surroundings(): Surroundings {
    this.#refresh();
    const outside = { photos: this.#whole.photos, outputs: [...this.#whole.deliver.values()], problems: this.#outside };
    return { text: this.#text, ...(this.#hasGrown ? relocate(outside, this.#move) : outside) };
  }

  /** An entry with its ranges in the present text. */
  entryAt(place: number): Pick<FrameEntry, 'frame' | 'problems'> {
    this.#refresh();
    return this.#hasGrown ? this.#presentEntry(this.#entries[place]!, place) : this.#entries[place]!;
  }

  /**
   * Makes one edit (offsets into the present text).
   * @returns the place in `entries` of the only frame that changed; undefined when the whole may have changed
   * @throws RangeError when the edit lies outside the text
   */
  edit(edit: TextEdit): number | undefined {
    const text = applyEdits(this.#text, [edit]);
    const place = this.#isWholeStale ? undefined : this.#editFrame(edit, text);
    this.#text = text;
    this.#present = undefined;
    if (place === undefined) this.#isWholeStale = true;
    return place;
  }

  /** Where an entry begins now. */
  startOf(place: number): number {
    return this.#starts[place]! + this.#growth.before(place);
  }

  #refresh(): void {
    if (!this.#isWholeStale) return;
    this.#isWholeStale = false;
    this.#take(parseManifest(this.#text, this.#rules));
  }

  #take(manifest: Manifest): void {
    const { entries, outside } = entriesOf(manifest, this.#entries);
    this.#entries = entries;
    this.#outside = outside;
    this.#whole = manifest;
    this.#present = undefined;
    this.#hasGrown = false;
    this.#starts = this.#entries.map(({ start }) => start);
    this.#growth = new PrefixSums(this.#entries.length);
    this.#knownLines = undefined;
  }

  get #lines(): FrameLines | undefined {
    return (this.#knownLines ??= { lines: frameLines(this.#whole) }).lines;
  }

  /** An entry as it is written, at the place where it was read. */
  #nodeOf({ node, frame }: FrameEntry): Node {
    return node ?? this.#whole.writtenFrames.get(frame.index)!.node;
  }

  /** Reads the one frame again that an edit changes; undefined when it could change anything else. */
  #editFrame(edit: TextEdit, text: string): number | undefined {
    const place = countBelow(this.#entries.length, (at) => this.startOf(at) <= edit.start) - 1;
    const entry = this.#entries[place];
    if (!entry || !this.#lines || this.#isShared(place)) return undefined;
    const start = this.startOf(place);
    const distance = start - entry.start;
    const value = plainValueAt(this.#nodeOf(entry), { start: edit.start - distance, end: edit.end - distance });
    if (!value?.range) return undefined;
    const from = value.range[0] + distance;
    const to = value.range[1] + distance;
    const growth = edit.text.length - (edit.end - edit.start);
    if (!isPlainWords(this.#text.slice(from, to)) || !isPlainWords(text.slice(from, to + growth))) return undefined;
    const end = entry.frame.range.end + distance + growth;
    const known = knownIds(this.#rules, this.#whole.deliver);
    const read = rereadFrame(text, this.#lineOf(place), end, entry.frame, known);
    if (!read || read.frame.range.start !== start || read.frame.range.end !== end) return undefined;
    this.#entries[place] = { ...read, start, content: {} };
    this.#growth.add(place, growth);
    this.#hasGrown = true;
    return place;
  }

  /** Whether a frame lies in text that aliases use. */
  #isShared(place: number): boolean {
    const start = this.#starts[place]!;
    return this.#whole.shared.some((range) => range.start <= start && start < range.end);
  }

  #relocated(): Manifest {
    const move = this.#move;
    const header = Object.entries(this.#whole).filter(([key]) => !APART.has(key));
    const present = this.#entries.map((entry, place) => this.#presentEntry(entry, place));
    const problems = [...relocate(this.#outside, move), ...present.flatMap((entry) => entry.problems)];
    const text = this.#text;
    let read: Manifest | undefined;
    const whole = (): Manifest => (read ??= parseManifest(text, this.#rules));
    const manifest: Manifest = {
      ...(Object.fromEntries(relocate(header, move)) as Header),
      text,
      problems: problems.sort((one, other) => one.range.start - other.range.start),
      frames: present.map(({ frame }) => frame),
      // How things are written is read when somebody asks: one frame alone, for the list of frames the whole.
      writtenFrames: {
        get: (index) => (this.#present === manifest ? this.#writtenAt(index) : whole().writtenFrames.get(index)),
      },
      get written() {
        return whole().written!;
      },
    };
    return manifest;
  }

  #presentEntry(entry: FrameEntry, place: number): Pick<FrameEntry, 'frame' | 'problems'> {
    const distance = this.startOf(place) - entry.start;
    if (distance === 0 && this.#whole.shared.length === 0) return entry;
    const { start, end } = entry.frame.range;
    // Aliases lead elsewhere; a frame that was read alone has none.
    const moveInside: Move = (range) =>
      range.start >= start && range.end <= end
        ? { start: range.start + distance, end: range.end + distance }
        : this.#move(range);
    return { frame: relocate(entry.frame, moveInside), problems: relocate(entry.problems, moveInside) };
  }

  #writtenAt(index: number): WrittenMap | undefined {
    const written = this.#whole.writtenFrames.get(index);
    const place = this.#entries.findIndex(({ frame }) => frame.index === index);
    const entry = this.#entries[place];
    if (!written || !entry || !this.#lines) return written;
    const distance = this.startOf(place) - entry.start;
    const end = entry.frame.range.end + distance;
    const node = distance === 0 ? this.#nodeOf(entry) : readEntryNode(this.#text, this.#lineOf(place), end);
    if (!node) return parseManifest(this.#text, this.#rules).writtenFrames.get(index);
    return { node: node as WrittenMap['node'], sources: relocate(written.sources, this.#move), broken: written.broken };
  }

  /** Where the line of an entry's dash begins now. */
  #lineOf(place: number): number {
    return this.startOf(place) - this.#starts[place]! + this.#lines![this.#entries[place]!.frame.index]!;
  }

  /** Where a range of the whole reading is now, outside the frames that were read again. */
  readonly #move: Move = ({ start, end }) => ({ start: this.#moved(start), end: this.#moved(end) });

  #moved(offset: number): number {
    return offset + this.#growth.before(countBelow(this.#starts.length, (at) => this.#starts[at]! < offset));
  }
}
