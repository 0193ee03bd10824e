import type { ReviewRest, ReviewRow, SheetReview } from '../sheet-messages.ts';
import { picture } from './cell.ts';
import { byId, counted, element } from '../page/elements.ts';
import { arrow, severityIcon } from '../page/severity-icon.ts';

export interface ReviewOptions {
  readonly address: (picture: string) => string | null | undefined;
  readonly write: (leftOut: readonly number[]) => void;
  readonly dismiss: () => void;
  readonly go: (index: number) => void;
  /** These rows are seen now. */
  readonly onSeen: (rows: readonly ReviewRow[]) => void;
}

const HELP = 'Left as it is, right as it would be; what moves most comes first. Nothing is written yet.';

/** What a fix would do: what moves most first, what needs somebody, and the choice to leave rows out. */
export class Review {
  readonly #options: ReviewOptions;
  readonly #box = byId('review');
  readonly #title = byId('review-title');
  readonly #notice = byId('review-notice');
  readonly #list = byId('review-rows');
  readonly #rest = byId('review-rest');
  readonly #write = byId('review-write') as HTMLButtonElement;
  readonly #seen = new Set<HTMLElement>();
  readonly #observer: IntersectionObserver;
  readonly #rows = new Map<HTMLElement, ReviewRow>();

  constructor(options: ReviewOptions) {
    this.#options = options;
    this.#observer = new IntersectionObserver(
      (entries) => {
        for (const { target, isIntersecting } of entries) {
          if (isIntersecting) this.#seen.add(target as HTMLElement);
          else this.#seen.delete(target as HTMLElement);
        }
        options.onSeen(this.seen);
        this.showPictures();
      },
      { root: this.#box, rootMargin: '200px' },
    );
    this.#write.addEventListener('click', () => {
      options.write(this.#leftOut());
    });
    byId('review-dismiss').addEventListener('click', options.dismiss);
    this.#list.addEventListener('change', () => {
      this.#count();
    });
    this.#box.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape') return;
      event.stopPropagation();
      options.dismiss();
    });
  }

  /** Rows that are in view or near it. */
  get seen(): ReviewRow[] {
    return [...this.#seen].flatMap((row) => this.#rows.get(row) ?? []);
  }

  show({ rows, needsYou, notice }: SheetReview): void {
    this.#clear();
    document.body.classList.add('reviewing');
    this.#title.textContent =
      rows.length === 0 ? 'No frame would get a new crop' : `${counted(rows.length, 'frame')} would get a new crop`;
    this.#notice.textContent = [...(rows.length > 0 ? [HELP] : []), ...(notice === undefined ? [] : [notice])].join(
      ' ',
    );
    for (const row of rows) {
      const item = this.#rowOf(row);
      this.#rows.set(item, row);
      this.#list.append(item);
      this.#observer.observe(item);
    }
    this.#rest.replaceChildren(...this.#restOf(needsYou));
    this.#count();
    this.#box.scrollTop = 0;
    this.#title.focus();
  }

  hide(): void {
    this.#clear();
    document.body.classList.remove('reviewing');
  }

  /** Puts the pictures in that have come meanwhile. */
  showPictures(): void {
    for (const item of this.#seen) {
      const row = this.#rows.get(item);
      if (!row) continue;
      for (const [room, name, shape] of [
        ['.was', row.before, row.shapes[0]],
        ['.is', row.after, row.shapes[1]],
      ] as const) {
        const place = item.querySelector(room)!;
        const address = this.#options.address(name);
        if (address !== undefined && !place.querySelector('img, .without')) {
          place.replaceChildren(picture(shape, address));
        }
      }
    }
  }

  #clear(): void {
    this.#observer.disconnect();
    this.#seen.clear();
    this.#rows.clear();
    this.#list.replaceChildren();
    this.#rest.replaceChildren();
  }

  #rowOf({ name, moved, mended, shapes, length, leftOut }: ReviewRow): HTMLElement {
    const box = element('input', '');
    box.type = 'checkbox';
    box.checked = true;
    const label = element('label', '', [box, element('span', 'name', name)]);
    const far = element('span', 'moved', `moved ${(moved * 100).toFixed(1)} %`);
    const mends = element('span', 'facts', mended.length === 0 ? '' : `mends ${mended.join(', ')}`);
    return element('li', 'row', [
      element('span', 'room was', [picture(shapes[0], undefined)]),
      arrow(),
      element('span', 'room is', [picture(shapes[1], undefined)]),
      element('span', 'words', [
        label,
        far,
        ...(length ? [costOf(length.words, length.isCloser)] : []),
        ...(leftOut === undefined ? [] : [costOf(leftOut, true)]),
        mends,
      ]),
    ]);
  }

  #restOf(needsYou: readonly ReviewRest[]): Node[] {
    if (needsYou.length === 0) return [];
    const items = needsYou.map(({ index, name, finding, reason }) => {
      const place = index === undefined ? element('span', 'name', name) : element('button', 'link', name);
      if (place instanceof HTMLButtonElement && index !== undefined) {
        place.type = 'button';
        place.addEventListener('click', () => {
          this.#options.go(index);
        });
      }
      const because = reason === undefined ? '' : ` It stays because ${reason}.`;
      return element('li', finding.severity, [
        severityIcon(finding.severity),
        place,
        element('span', '', `${finding.message}${because} `),
        element('span', 'facts', finding.rule),
      ]);
    });
    const frames = new Set(needsYou.map(({ name }) => name)).size;
    return [element('h3', '', `Needs you: ${counted(frames, 'frame')}`), element('ul', 'rest', items)];
  }

  #leftOut(): number[] {
    return [...this.#rows].filter(([item]) => item.querySelector('input')?.checked !== true).map(([, { index }]) => index); // prettier-ignore
  }

  #count(): void {
    const left = this.#leftOut().length;
    const number = this.#rows.size - left;
    this.#write.disabled = number === 0;
    this.#write.textContent = `Write ${counted(number, 'New Crop')}`;
    for (const item of this.#rows.keys()) item.classList.toggle('out', item.querySelector('input')?.checked !== true);
  }
}

/** What the crop would cost has the sign of something to look at. */
function costOf(words: string, isCost: boolean): HTMLElement {
  return element('span', 'cost', [...(isCost ? [severityIcon('info')] : []), new Text(words)]);
}
