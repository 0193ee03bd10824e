import type { Act, FromSheet, SheetFrame, SheetReview, ToSheet } from '../sheet-messages.ts';
import { SHEET_PROTOCOL } from '../sheet-messages.ts';
import { CropChoice } from '../page/crop-choice.ts';
import { byId, counted } from '../page/elements.ts';
import { filtered, type Filter } from './filter.ts';
import { FilterBar } from './filter-bar.ts';
import { FoundList } from './found-list.ts';
import { Grid } from './grid.ts';
import { listenToGrid } from './grid-input.ts';
import { Review } from './review.ts';
import { keptIn, NOTHING, type Selection } from './selection.ts';

/** What changes main crops, and is not offered while others are seen. */
const OF_MAIN_CROPS: ReadonlySet<Act> = new Set(['fix', 'fix-rule', 'length', 'compose', 'aspect']);

/** What is kept while the panel is hidden. */
export interface KeptState {
  readonly filter: Filter;
  readonly active: string | undefined;
}

export interface SheetOptions {
  readonly send: (message: FromSheet) => void;
  readonly kept: KeptState | undefined;
  readonly keep: (state: KeptState) => void;
}

/** The contact sheet: all frames of a session, which of them are shown, and what is done with those selected. */
export class Sheet {
  readonly #send: (message: FromSheet) => void;
  readonly #keep: (state: KeptState) => void;
  readonly #grid: Grid;
  readonly #filters: FilterBar;
  readonly #review: Review;
  readonly #found = new FoundList(byId('found'));
  readonly #actButtons = [...document.querySelectorAll<HTMLButtonElement>('#acts button')];
  readonly #crops: CropChoice;
  #revision = -1;
  #frames: readonly SheetFrame[] = [];
  #selection: Selection = NOTHING;
  #needsYou: ReadonlySet<number> | undefined;
  /** By the pictures' names; null when there is none to be had. */
  readonly #addresses = new Map<string, string | null>();
  /** Pictures that were made since anything changed. */
  readonly #fresh = new Set<string>();
  #wasActive: string | undefined;

  constructor({ send, kept, keep }: SheetOptions) {
    this.#send = send;
    this.#keep = keep;
    this.#wasActive = kept?.active;
    this.#filters = new FilterBar(() => {
      this.#takeFilter();
    });
    this.#grid = new Grid(byId('grid'), {
      address: ({ picture }) => this.#addresses.get(picture),
      isSelected: ({ name }) => this.#selection.names.has(name),
      onRest: () => {
        this.#ask();
      },
    });
    listenToGrid(this.#grid, {
      selection: () => this.#selection,
      select: (selection) => {
        this.#selection = selection;
        this.#grid.redraw();
        this.#showCounts();
        this.#showFound();
      },
      go: (position, isLeaving) => {
        this.#go(this.#grid.frames[position]?.index, isLeaving);
      },
    });
    this.#grid.box.addEventListener('keyup', () => {
      this.#showFound();
    });
    this.#grid.box.addEventListener('click', () => {
      this.#showFound();
    });
    this.#review = new Review({
      address: (picture) => this.#addresses.get(picture),
      write: (leftOut) => {
        send({ kind: 'write', leftOut });
      },
      dismiss: () => {
        send({ kind: 'dismiss' });
      },
      go: (index) => {
        this.#go(index, false);
      },
      onSeen: () => {
        this.#ask();
      },
    });
    this.#crops = new CropChoice('crops', (output) => {
      send({ kind: 'cut-for', output });
    });
    for (const button of this.#actButtons) {
      button.addEventListener('click', () => {
        this.#act(button.value as Act);
      });
    }
    if (kept) this.#filters.filter = kept.filter;
  }

  take(message: ToSheet): void {
    switch (message.kind) {
      case 'session':
        this.#takeSession(message);
        return;
      case 'outputs':
        this.#crops.show(message.ids.map((id) => ({ id, words: id })), message.shown); // prettier-ignore
        return;
      case 'changed':
        this.#takeChanged(message.frames);
        return;
      case 'picture':
        this.#addresses.set(message.picture, message.address ?? null);
        this.#fresh.add(message.picture);
        this.#grid.redraw();
        this.#review.showPictures();
        return;
      case 'needs-you':
        this.#needsYou = message.indices && new Set(message.indices);
        this.#showFrames();
        return;
      case 'review':
        this.#showReview(message.review);
        return;
      case 'review-end':
        this.#review.hide();
        this.#grid.box.focus();
        return;
      case 'told':
        byId('told').textContent = message.text;
        return;
      case 'nothing':
        this.#showNothing(message.reason);
    }
  }

  #takeSession({ protocol, revision, name, frames }: Extract<ToSheet, { kind: 'session' }>): void {
    if (protocol !== SHEET_PROTOCOL) {
      this.#showNothing('The contact sheet is of another version. Close it and open it again.');
      return;
    }
    const isFirst = this.#revision === -1;
    document.body.classList.remove('empty');
    this.#revision = revision;
    this.#frames = frames;
    byId('session-name').textContent = name;
    this.#fresh.clear();
    if (isFirst && this.#filters.filter.needsYou === true) this.#send({ kind: 'needs-you', isWanted: true });
    this.#showFrames();
    if (isFirst) this.#grid.box.focus();
  }

  #takeChanged(changed: readonly SheetFrame[]): void {
    const byIndex = new Map(changed.map((frame) => [frame.index, frame]));
    this.#frames = this.#frames.map((frame) => byIndex.get(frame.index) ?? frame);
    this.#fresh.clear();
    this.#showFrames();
  }

  #takeFilter(): void {
    const isWanted = this.#filters.filter.needsYou === true;
    if (!isWanted) this.#needsYou = undefined;
    this.#send({ kind: 'needs-you', isWanted });
    this.#showFrames();
  }

  /** Shows what the filter lets through; the active frame stays the active one if it is among them. */
  #showFrames(): void {
    this.#filters.offer(this.#frames);
    const shown = filtered(this.#frames, this.#filters.filter, this.#needsYou ?? new Set());
    const active = this.#grid.frames[this.#grid.active]?.name ?? this.#wasActive;
    const place = shown.findIndex(({ name }) => name === active);
    const names = shown.map(({ name }) => name);
    this.#selection = keptIn(this.#selection, names);
    this.#grid.show(shown, place === -1 ? Math.min(this.#grid.active, shown.length - 1) : place);
    this.#showCounts();
    this.#showFound();
  }

  #showCounts(): void {
    const { filter } = this.#filters;
    const shown = this.#grid.frames.length;
    const selected = this.#selection.names.size;
    const isWorking = filter.needsYou === true && this.#needsYou === undefined;
    const words = isWorking
      ? 'Looking for what needs you…'
      : `${shown.toLocaleString('en')} of ${counted(this.#frames.length, 'frame')} shown, ${selected.toLocaleString('en')} selected`;
    if (byId('counts').textContent !== words) byId('counts').textContent = words;
    for (const button of this.#actButtons) {
      const isOfOther = this.#crops.output !== undefined && OF_MAIN_CROPS.has(button.value as Act);
      button.disabled = selected === 0 || isOfOther;
      button.title = isOfOther ? 'This is about the main crops' : '';
    }
    this.#keep({ filter, active: this.#grid.frames[this.#grid.active]?.name });
  }

  #showFound(): void {
    this.#found.show(this.#grid.frames[this.#grid.active], this.#selected());
  }

  #selected(): SheetFrame[] {
    return this.#grid.frames.filter(({ name }) => this.#selection.names.has(name));
  }

  #showReview(review: SheetReview): void {
    byId('told').textContent = '';
    this.#review.show(review);
  }

  #showNothing(reason: string): void {
    document.body.classList.add('empty');
    byId('reason').textContent = reason;
  }

  /** Asks for pictures that are seen and may be stale or not there; whatever was asked for before is no longer wanted. */
  #ask(): void {
    const now = this.#grid.seen.filter(({ picture }) => !this.#fresh.has(picture)).map(({ index }) => index);
    const rows = this.#review.seen;
    const before = rows.filter((row) => !this.#fresh.has(row.before)).map(({ index }) => index);
    const after = rows.filter((row) => !this.#fresh.has(row.after)).map(({ index }) => index);
    this.#send({ kind: 'seen', revision: this.#revision, now: rows.length > 0 ? before : now, after });
  }

  #go(index: number | undefined, isLeaving: boolean): void {
    if (index !== undefined) this.#send({ kind: 'go', revision: this.#revision, index, isLeaving });
  }

  #act(act: Act): void {
    const indices = this.#selected().map(({ index }) => index);
    byId('told').textContent = act === 'fix' || act === 'fix-rule' ? 'Looking for better crops…' : '';
    this.#send({ kind: 'act', revision: this.#revision, act, indices });
  }
}
