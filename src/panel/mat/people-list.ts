import { placeOf, type Place } from '../../people/correct.ts';
import type { Person } from '../../people/person.ts';
import { byId } from '../page/elements.ts';
import { HAND_PLACED, placeWords } from './place-words.ts';

/** What the list needs from the mat. */
export interface PeopleListUser {
  add(): void;
  place(person: number, place: Place): void;
  remove(person: number): void;
  takeBack(): void;
}

/** The people of the photo, with what can be corrected about each as a whole. */
export class PeopleList {
  readonly #user: PeopleListUser;
  readonly #list = byId('people-list');
  readonly #add = byId('people-add');
  readonly #takeBack = byId('people-back') as HTMLButtonElement;
  /** What the rows say. */
  #shown = '';

  constructor(user: PeopleListUser) {
    this.#user = user;
    this.#add.addEventListener('click', () => {
      user.add();
    });
    this.#takeBack.addEventListener('click', () => {
      user.takeBack();
    });
  }

  show(people: readonly Person[], canTakeBack: boolean): void {
    const used = document.activeElement;
    this.#takeBack.disabled = !canTakeBack;
    this.#showRows(people);
    // A button that was used and is gone leaves the keys beside it, not outside the mat.
    const isGone = used === this.#takeBack ? !canTakeBack : used !== null && !used.isConnected;
    if (isGone) this.#add.focus({ preventScroll: true });
  }

  #showRows(people: readonly Person[]): void {
    const shown = JSON.stringify(people.map((person) => [person.id, person.source, missingOf(person)]));
    // A row in use stays the same row: the same people come again with every change of the text.
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.#list.replaceChildren(...people.map((person) => this.#row(person)));
  }

  #row(person: Person): HTMLLIElement {
    const row = document.createElement('li');
    const name = document.createElement('span');
    name.textContent = `Person ${person.id}${person.source === 'hand' ? ', by hand' : ''}`;
    const out = document.createElement('button');
    out.type = 'button';
    out.textContent = 'Take out';
    out.setAttribute('aria-label', `Take out person ${person.id}`);
    out.addEventListener('click', () => {
      this.#user.remove(person.id);
    });
    row.append(name, ...this.#missing(person), out);
    return row;
  }

  /** The places that are not known yet, each of which can be placed. */
  #missing(person: Person): HTMLElement[] {
    const places = missingOf(person);
    if (places.length === 0) return [];
    const select = document.createElement('select');
    select.setAttribute('aria-label', `Joints of person ${person.id} that are missing`);
    select.append(...places.map((place) => new Option(placeWords(place), place)));
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = 'Place';
    button.setAttribute('aria-label', `Place the chosen joint of person ${person.id}`);
    button.addEventListener('click', () => {
      const place = places.find((each) => each === select.value);
      if (place) this.#user.place(person.id, place);
    });
    return [select, button];
  }
}

function missingOf(person: Person): Place[] {
  return HAND_PLACED.filter((place) => placeOf(person, place) === undefined);
}
