import type { Point } from '../../geometry/shapes.ts';
import { placeOf, type Correction, type Place } from '../../people/correct.ts';
import type { Person } from '../../people/person.ts';
import { byId } from '../page/elements.ts';
import { PeopleList } from './people-list.ts';
import { GUIDE } from './place-words.ts';
import { Placing, type Placed } from './placing.ts';
import type { Surface } from './surface.ts';
import type { View } from './view.ts';

/** What the tools need from the mat. */
export interface PeopleToolsUser {
  correct(correction: Correction): void;
  takeBack(): void;
}

/** Adding, completing and taking out people. */
export class PeopleTools {
  readonly #surface: Surface;
  readonly #view: () => View | undefined;
  readonly #list: PeopleList;
  #placing: Placing | undefined;

  constructor(surface: Surface, view: () => View | undefined, user: PeopleToolsUser) {
    this.#surface = surface;
    this.#view = view;
    this.#list = new PeopleList({
      add: () => {
        this.#place(GUIDE, (places) => {
          user.correct({ kind: 'add', places });
        });
      },
      place: (person, place) => {
        this.#place([place], (places) => {
          const at = places[place];
          if (at) user.correct({ kind: 'place', person, place, at });
        });
      },
      remove: (person) => {
        user.correct({ kind: 'remove', person });
      },
      takeBack: () => {
        user.takeBack();
      },
    });
    for (const [id, act] of [
      ['placing-skip', () => this.#placing?.skip()],
      ['placing-back', () => this.#placing?.back()],
      ['placing-done', () => this.#placing?.finish()],
      ['placing-stop', () => { this.#surface.end(); }], // prettier-ignore
    ] as const) {
      byId(id).addEventListener('click', act);
    }
  }

  show(people: readonly Person[], canTakeBack: boolean): void {
    this.#list.show(people, canTakeBack);
    (byId('placing-done') as HTMLButtonElement).disabled = this.#placing?.canFinish !== true;
  }

  placeIn(people: readonly Person[], person: number, place: Place): Point | undefined {
    const found = people.find(({ id }) => id === person);
    const at = found && placeOf(found, place);
    return at && { x: at.x, y: at.y };
  }

  #place(asked: readonly Place[], done: (placed: Placed) => void): void {
    const buttons = byId('placing');
    const placing = new Placing(this.#surface, this.#view, asked, {
      done,
      ended: () => {
        this.#placing = undefined;
        buttons.hidden = true;
      },
    });
    this.#surface.begin(placing);
    this.#placing = placing;
    buttons.hidden = asked.length < 2;
  }
}
