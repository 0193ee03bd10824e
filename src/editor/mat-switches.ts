import type { Memento } from 'vscode';
import { EventEmitter } from 'vscode';
import { SWITCHES, type Switch } from '../panel/messages.ts';

const KEY = 'selvedge.mat.switches';
const AT_FIRST: readonly Switch[] = ['keep-shape'];

/** What is switched on on the mat; remembered from one day to the next. */
export class MatSwitches {
  readonly #memory: Memento;
  readonly #changed = new EventEmitter<readonly Switch[]>();
  #on: ReadonlySet<Switch>;

  readonly onDidChange = this.#changed.event;

  constructor(memory: Memento) {
    this.#memory = memory;
    const kept = memory.get<unknown>(KEY);
    this.#on = new Set(Array.isArray(kept) ? SWITCHES.filter((each) => kept.includes(each)) : AT_FIRST);
  }

  get on(): readonly Switch[] {
    return [...this.#on];
  }

  /** Takes what the mat says, and tells nobody: the mat shows it already. */
  async set(on: readonly Switch[]): Promise<void> {
    this.#on = new Set(on);
    await this.#memory.update(KEY, this.on);
  }

  async turn(which: Switch): Promise<void> {
    await this.set(this.#on.has(which) ? this.on.filter((each) => each !== which) : [...this.on, which]);
    this.#changed.fire(this.on);
  }

  dispose(): void {
    this.#changed.dispose();
  }
}
