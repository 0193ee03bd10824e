import type { Size } from '../geometry/shapes.ts';
import type { Correction } from '../people/correct.ts';
import { correctPhoto, takeBack, type CorrectedLine } from '../session/correct-photo.ts';
import type { OpenManifest } from './open-manifest.ts';
import { plainLine } from './plain-text.ts';

const MOST_STEPS = 100;

/**
 * Corrections of people, which go into the people file at once, one after the other. The people file is not the text that
 * is open, so that the editor cannot undo them: the mat can.
 */
export class MatPeople {
  /** By people file, the last one last. */
  readonly #done = new Map<string, CorrectedLine[]>();
  #last: Promise<unknown> = Promise.resolve();

  canTakeBack({ session }: OpenManifest): boolean {
    return (this.#done.get(session.peoplePath)?.length ?? 0) > 0;
  }

  /**
   * @returns why nothing was written, when nothing was
   * @throws SessionError when the people file cannot be read or written
   */
  async correct(
    manifest: OpenManifest,
    photo: { readonly photo: string; readonly size: Size },
    correction: Correction,
  ): Promise<string | undefined> {
    return this.#next(async () => {
      const { peoplePath } = manifest.session;
      const written = await correctPhoto(peoplePath, photo, correction);
      if (written) {
        const steps = [...(this.#done.get(peoplePath) ?? []), written].slice(-MOST_STEPS);
        this.#done.set(peoplePath, steps);
      }
      await manifest.readPeople();
      if (written) return undefined;
      return 'The people file was changed meanwhile and does not have this person any more; nothing was written.';
    });
  }

  /** @throws SessionError when the people file cannot be read or written */
  async takeBack(manifest: OpenManifest): Promise<string | undefined> {
    return this.#next(async () => {
      const { peoplePath } = manifest.session;
      const step = this.#done.get(peoplePath)?.pop();
      if (!step) return undefined;
      const isBack = await takeBack(peoplePath, step);
      await manifest.readPeople();
      if (isBack) return undefined;
      return `The people of ${plainLine(step.photo, 100)} were changed by somebody else since; that was left as it is.`;
    });
  }

  /** One after the other: two at once would read the same file. */
  async #next<T>(work: () => Promise<T>): Promise<T> {
    const after = this.#last.then(work, work);
    this.#last = after.catch(() => undefined);
    return after;
  }
}
