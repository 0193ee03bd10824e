import { identityOf } from '../../rules/finding.ts';
import { fixesFor, type Fix } from '../../search/index.ts';
import type { FrameOnMat } from './frame-on-mat.ts';

/** Milliseconds that a frame lies before its fixes are looked for: who leafs through waits for none. */
const PAUSE = 60;

/** The best fix of every finding that has one, by the finding's identity: what the text's own lamp offers first. */
export function bestFixesOf(on: FrameOnMat): Map<string, Fix> {
  const { was, configuration, frame, written } = on;
  const fixes = fixesFor(was, configuration, on.findingsAt(written), { allow: frame.allow });
  return new Map([...fixes].flatMap(([finding, [best]]) => (best ? [[identityOf(finding), best]] : [])));
}

/** The best fixes of the frame as the text has it; they are looked for while nobody waits. */
export class BestFixes {
  readonly #found: () => void;
  #of: FrameOnMat | undefined;
  #fixes: ReadonlyMap<string, Fix> = new Map();
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param found told when there are some */
  constructor(found: () => void) {
    this.#found = found;
  }

  /** By the finding's identity; none while they are looked for. */
  of(on: FrameOnMat): ReadonlyMap<string, Fix> {
    return this.#of === on ? this.#fixes : new Map();
  }

  find(on: FrameOnMat): void {
    clearTimeout(this.#timer);
    if (on.frame.isFinal) return;
    this.#timer = setTimeout(() => {
      this.#of = on;
      this.#fixes = bestFixesOf(on);
      this.#found();
    }, PAUSE);
  }
}
