import { identityOf } from '../../rules/finding.ts';
import { fixesFor, type Fix } from '../../search/index.ts';
import type { FrameOnMat } from './frame-on-mat.ts';

/** Milliseconds that a frame lies before its fixes are looked for: who leafs through waits for none. */
const PAUSE = 60;

/** The best fix of every finding of the frame as the text has it, the one that the text's own lamp offers first. */
export class BestFixes {
  readonly #found: () => void;
  #of: FrameOnMat | undefined;
  #fixes: ReadonlyMap<string, Fix> = new Map();
  #timer = 0;

  /** @param found told when there are some */
  constructor(found: () => void) {
    this.#found = found;
  }

  /** By the finding's identity; none while they are looked for. */
  of(on: FrameOnMat): ReadonlyMap<string, Fix> {
    return this.#of === on ? this.#fixes : new Map();
  }

  find(on: FrameOnMat): void {
    window.clearTimeout(this.#timer);
    if (on.frame.isFinal) return;
    this.#timer = window.setTimeout(() => {
      const { was, configuration, frame, written } = on;
      const fixes = fixesFor(was, configuration, on.findingsAt(written), { allow: frame.allow });
      this.#of = on;
      this.#fixes = new Map([...fixes].flatMap(([finding, [best]]) => (best ? [[identityOf(finding), best]] : [])));
      this.#found();
    }, PAUSE);
  }
}
