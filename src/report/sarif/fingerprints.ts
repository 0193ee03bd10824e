import { identityOf } from '../../rules/finding.ts';
import type { LocatedFinding } from '../../session/located-finding.ts';
import { isAboutCrop } from '../../session/asked.ts';

/**
 * What tells a finding from the others of a manifest and stays the same while lines move, numbers change and other frames
 * come and go: the frame's name and what the rule says of which place. Two of the same kind are numbered.
 */
export class Fingerprints {
  readonly #seen = new Map<string, number>();

  /** @param frameName absent for what is said of the whole session */
  of(finding: LocatedFinding, frameName: string | undefined): string {
    // What is said of a file has no place in a body: its sentence tells one from another.
    const what = isAboutCrop(finding) ? identityOf(finding).trim() : `${finding.rule} ${finding.message}`;
    const name = `${frameName ?? ''}: ${what}`;
    const before = this.#seen.get(name) ?? 0;
    this.#seen.set(name, before + 1);
    return before === 0 ? name : `${name} (${before + 1})`;
  }
}
