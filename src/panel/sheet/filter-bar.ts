import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Severity } from '../../rules/rule.ts';
import type { SheetFrame } from '../sheet-messages.ts';
import { byId, element } from '../page/elements.ts';
import { choicesOf, type Choice, type Filter } from './filter.ts';
import { peopleWords } from './frame-words.ts';

const SEVERITY_CHOICES: Readonly<Record<Severity | 'clean', string>> = {
  error: 'errors',
  warning: 'warnings',
  info: 'hints',
  clean: 'nothing',
};
/** Where the switches are folded away: as in the page's style. */
const LITTLE_ROOM = '(max-width: 480px), (max-height: 480px)';
const PEOPLE_KEY = /^\d+$/;

/** The switches that say which frames are shown. */
export class FilterBar {
  readonly #box = byId('filter-box') as HTMLDetailsElement;
  readonly #littleRoom = window.matchMedia(LITTLE_ROOM);
  readonly #name = byId('filter-name') as HTMLInputElement;
  readonly #rule = byId('filter-rule') as HTMLSelectElement;
  readonly #severity = byId('filter-severity') as HTMLSelectElement;
  readonly #people = byId('filter-people') as HTMLSelectElement;
  readonly #length = byId('filter-length') as HTMLSelectElement;
  readonly #needsYou = byId('filter-needs-you') as HTMLInputElement;

  constructor(onChange: () => void) {
    byId('filters').addEventListener('input', onChange);
    byId('filters').addEventListener('submit', (event) => {
      event.preventDefault();
    });
    byId('filter-none').addEventListener('click', () => {
      this.filter = {};
      onChange();
    });
    this.#littleRoom.addEventListener('change', () => {
      this.#fold();
    });
    this.#fold();
  }

  get filter(): Filter {
    const people = this.#people.value;
    return {
      ...(this.#name.value.trim() !== '' && { name: this.#name.value }),
      ...(this.#rule.value !== '' && { rule: this.#rule.value }),
      ...(this.#severity.value !== '' && { severity: this.#severity.value as NonNullable<Filter['severity']> }),
      ...(people !== '' && { people: PEOPLE_KEY.test(people) ? Number(people) : 'not measured' }),
      ...(this.#length.value !== '' && { length: this.#length.value as NonNullable<Filter['length']> }),
      ...(this.#needsYou.checked && { needsYou: true }),
    };
  }

  set filter(filter: Filter) {
    this.#name.value = filter.name ?? '';
    select(this.#rule, filter.rule ?? '');
    select(this.#severity, filter.severity ?? '');
    select(this.#people, String(filter.people ?? ''));
    select(this.#length, filter.length ?? '');
    this.#needsYou.checked = filter.needsYou === true;
    if (Object.keys(filter).length > 0) this.#box.open = true;
  }

  /** Offers what these frames can be filtered by; what is chosen stays chosen, even if no frame has it any more. */
  offer(frames: readonly SheetFrame[]): void {
    const { rules, severities, people, lengths } = choicesOf(frames);
    fill(this.#rule, rules, (rule) => rule);
    fill(this.#severity, severities, (severity) => SEVERITY_CHOICES[severity]);
    fill(this.#people, people, (number) => (typeof number === 'number' ? peopleWords(number) : number));
    fill(this.#length, lengths, (length) => (length === 'not known' ? length : LENGTH_WORDS[length]));
  }

  /** What filters is always seen; a filter that nobody set takes no room where there is little. */
  #fold(): void {
    this.#box.open = !this.#littleRoom.matches || Object.keys(this.filter).length > 0;
  }
}

function fill<Value extends string | number>(
  list: HTMLSelectElement,
  choices: readonly Choice<Value>[],
  words: (value: Value) => string,
): void {
  const chosen = list.value;
  const options = choices.map(({ value, frames }) => {
    const option = element('option', '', `${words(value)} (${frames.toLocaleString('en')})`);
    option.value = String(value);
    return option;
  });
  const any = element('option', '', 'any');
  any.value = '';
  list.replaceChildren(any, ...options);
  select(list, chosen);
}

function select(list: HTMLSelectElement, value: string): void {
  list.value = value;
  if (list.value === value) return;
  const option = element('option', '', `${value} (0)`);
  option.value = value;
  list.append(option);
  list.value = value;
}
