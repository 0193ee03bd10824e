import type { Point } from '../../geometry/shapes.ts';
import { POSSIBLE } from '../../people/confidence.ts';
import { placeOf, type Place } from '../../people/correct.ts';
import type { Person } from '../../people/person.ts';
import { ARROWS } from './arrows.ts';
import { byId } from '../page/elements.ts';
import { HAND_PLACED, placeWords } from './place-words.ts';
import type { View } from './view.ts';

/** What the joints need from the mat. */
export interface JointsUser {
  view(): View | undefined;
  /** A joint is being moved: fractions of the photo. */
  move(person: number, place: Place, at: Point): void;
  letGo(person: number, place: Place): void;
  unplace(person: number, place: Place): void;
}

/** One key moves by so many pixels of the page; with Shift by ten times that. */
const KEY_STEP = 1;
/** Keys that come one after the other are one correction. */
const KEY_PAUSE = 700;

/** The joints of everybody on the mat, each of which can be taken hold of. */
export class Joints {
  readonly #element = byId('joints');
  readonly #user: JointsUser;
  readonly #buttons = new Map<string, HTMLButtonElement>();
  #people: readonly Person[] = [];

  constructor(user: JointsUser) {
    this.#user = user;
  }

  /** Draws the joints of these people; none takes them all away. */
  draw(people: readonly Person[], view: View): void {
    this.#people = people;
    const seen = new Set<string>();
    for (const person of people) {
      for (const place of HAND_PLACED) {
        const at = placeOf(person, place);
        if (!at) continue;
        const key = `${person.id} ${place}`;
        seen.add(key);
        const button = this.#buttons.get(key) ?? this.#add(key, person.id, place);
        const { x, y } = view.fromPhoto(at);
        button.style.translate = `${x.toFixed(1)}px ${y.toFixed(1)}px`;
        button.classList.toggle('unsure', at.confidence < POSSIBLE);
      }
    }
    for (const [key, button] of this.#buttons) {
      if (seen.has(key)) continue;
      button.remove();
      this.#buttons.delete(key);
    }
  }

  #add(key: string, person: number, place: Place): HTMLButtonElement {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'hold';
    const name = `${placeWords(place)} of person ${person}`;
    button.setAttribute('aria-label', `${name}: arrow keys move it, Delete when it cannot be seen`);
    button.title = name;
    this.#listen(button, person, place);
    this.#buttons.set(key, button);
    this.#element.append(button);
    return button;
  }

  #at(person: number, place: Place): Point | undefined {
    const found = this.#people.find(({ id }) => id === person);
    return found && placeOf(found, place);
  }

  #listen(button: HTMLButtonElement, person: number, place: Place): void {
    let timer = 0;
    button.addEventListener('pointerdown', (event) => {
      const start = this.#at(person, place);
      const view = this.#user.view();
      if (event.button !== 0 || !start || !view) return;
      event.preventDefault();
      event.stopPropagation();
      button.focus({ preventScroll: true });
      button.setPointerCapture(event.pointerId);
      const { x, y } = view.fromPhoto(start);
      let isMoved = false;
      const onMove = (moved: PointerEvent): void => {
        isMoved = true;
        const at = { x: x + moved.clientX - event.clientX, y: y + moved.clientY - event.clientY };
        this.#user.move(person, place, view.toPhoto(at));
      };
      const onEnd = (): void => {
        button.removeEventListener('pointermove', onMove);
        if (isMoved) this.#user.letGo(person, place);
      };
      button.addEventListener('pointermove', onMove);
      button.addEventListener('lostpointercapture', onEnd, { once: true });
    });
    button.addEventListener('keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const arrow = ARROWS[event.key];
      const at = this.#at(person, place);
      const view = this.#user.view();
      if (event.key === 'Delete') this.#user.unplace(person, place);
      else if (arrow && at && view) {
        const { x, y } = view.fromPhoto(at);
        const step = KEY_STEP * (event.shiftKey ? 10 : 1);
        this.#user.move(person, place, view.toPhoto({ x: x + arrow.x * step, y: y + arrow.y * step }));
        window.clearTimeout(timer);
        timer = window.setTimeout(() => {
          this.#user.letGo(person, place);
        }, KEY_PAUSE);
      } else return;
      event.preventDefault();
      event.stopPropagation();
    });
  }
}
