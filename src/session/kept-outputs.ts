import { identityOf } from '../rules/finding.ts';
import { isAboutMainCrop } from './asked.ts';
import type { CheckContext } from './check-context.ts';
import { checkOutputs, sizeOf, type FrameCheck, type FrameInput } from './frame-check.ts';
import { moved } from './located-finding.ts';
import type { FoundOfOutputs } from './outputs/output-findings.ts';
import type { PhotoState } from './photo-states.ts';

/** What was found about a frame, and what it came from: while that is the same, it is. */
export interface KeptCheck {
  readonly check: FrameCheck;
  /** Where the frame began; the findings' ranges are meant so. */
  readonly start: number;
  readonly context: CheckContext;
  readonly people: string | undefined;
  readonly state: PhotoState | undefined;
}

interface Kept {
  readonly found: FoundOfOutputs;
  readonly start: number;
  readonly context: CheckContext;
  readonly people: string | undefined;
  /** The photo's size and what is found of the main crop, by its identity. */
  readonly about: string;
}

/**
 * What was found about the crops of outputs. The search for them takes longest, and nothing that the disk says of a photo
 * but its size changes it: it is not done again when somebody has looked at the photos.
 */
export class KeptOutputs {
  /** By the entries' content, which is the same object while an entry says the same. */
  readonly #kept = new WeakMap<object, Kept>();

  /** @param main what is found about the frame's main crop now */
  of(content: object, main: KeptCheck, input: FrameInput): FoundOfOutputs {
    const { context, people, start } = main;
    const { findings } = main.check;
    const about = JSON.stringify([sizeOf(input), findings.filter(isAboutMainCrop).map(identityOf)]);
    const known = this.#kept.get(content);
    const isSame = known?.people === people && known?.about === about;
    if (known && isSame && isSameForOutputs(known.context, context)) {
      const { findings, checks } = known.found;
      return { findings: moved(findings, start - known.start), checks };
    }
    const found = checkOutputs(context, input, findings);
    this.#kept.set(content, { found, start, context, people, about });
    return found;
  }
}

function isSameForOutputs(one: CheckContext, other: CheckContext): boolean {
  return (
    one.outputs === other.outputs &&
    one.configuration === other.configuration &&
    one.aspect === other.aspect &&
    one.composition === other.composition
  );
}
