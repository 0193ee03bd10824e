import type { Finding, RelatedFact } from '../../rules/finding.ts';
import { allowKeyOf, identityOf } from '../../rules/finding.ts';
import type { Fix } from '../../search/index.ts';
import { MEASURE_TITLE } from '../messages.ts';
import { byId, counted, element } from '../page/elements.ts';
import { SEVERITIES, SEVERITY_WORDS, severityIcon } from '../page/severity-icon.ts';
import type { FoundOnMat } from './frame-on-mat.ts';
import { askWhy } from './reason-box.ts';

/** What the list needs from the mat. */
export interface FindingsUser {
  mend(fix: Fix): void;
  /** @param key `rule` or `rule/joint` */
  allow(key: string, reason: string): void;
  measure(): void;
  /** Has the crop of an output lie on the mat. */
  cutFor(output: string): void;
}

/** What is found, and what can be done about it. */
export interface FoundFrame {
  readonly findings: readonly FoundOnMat[];
  /** The best fix of each finding that has one, by the finding's identity. */
  readonly fixes: ReadonlyMap<string, Fix>;
  /** Whether a finding of this rule can be allowed now. */
  readonly canAllow: (rule: string) => boolean;
  /** What is allowed is allowed in the crops of outputs, too. */
  readonly hasOutputs: boolean;
  readonly whenNone: string;
}

/** A measure that is missing or old; measuring is what mends it. */
const OF_MEASURING: ReadonlySet<string> = new Set(['not-measured', 'stale-measure']);

/** Everything that is found, in whole sentences, each with what mends it and the way to live with it. */
export class FindingsList {
  readonly #list = byId('findings');
  readonly #user: FindingsUser;
  #shown = '';

  constructor(user: FindingsUser) {
    this.#user = user;
  }

  show({ findings, fixes, canAllow, hasOutputs, whenNone }: FoundFrame): void {
    const worstFirst = [...findings].sort((one, other) => SEVERITIES.indexOf(one.severity) - SEVERITIES.indexOf(other.severity)); // prettier-ignore
    const rows = worstFirst.map((finding) => ({
      finding,
      fix: fixes.get(identityOf(finding)),
      canAllow: canAllow(finding.rule),
      hasOutputs,
    }));
    const shown = JSON.stringify([rows, whenNone]);
    // A row in use stays the same row.
    if (shown === this.#shown) return;
    this.#shown = shown;
    const wasInside = this.#list.contains(document.activeElement);
    const lines = rows.map(({ finding, fix, canAllow: can }) => this.#row(finding, fix, { canAllow: can, hasOutputs }));
    this.#list.replaceChildren(...(lines.length > 0 ? lines : [element('li', '', whenNone)]));
    if (wasInside) this.#list.focus({ preventScroll: true });
  }

  #row(
    finding: FoundOnMat,
    fix: Fix | undefined,
    { canAllow, hasOutputs }: { readonly canAllow: boolean; readonly hasOutputs: boolean },
  ): HTMLElement {
    const { severity, message, rule, related = [], output } = finding;
    const deeds = element('span', 'deeds');
    const row = element('li', severity, [
      severityIcon(severity),
      element('span', 'spoken', `${SEVERITY_WORDS[severity]} `),
      element('span', 'message', [
        new Text(`${message} `),
        element('span', 'rule', rule),
        ...related.map(relatedFact),
        ...(fix || canAllow || output !== undefined || OF_MEASURING.has(rule) ? [deeds] : []),
      ]),
    ]);
    if (fix) {
      deeds.append(deed(fix.title, fix.title, () => { this.#user.mend(fix); })); // prettier-ignore
    }
    if (output !== undefined) {
      const words = `Show the crop for ${output}`;
      deeds.append(deed(words, words, () => { this.#user.cutFor(output); })); // prettier-ignore
    }
    if (OF_MEASURING.has(rule)) {
      deeds.append(deed(MEASURE_TITLE, MEASURE_TITLE, () => { this.#user.measure(); })); // prettier-ignore
    }
    if (canAllow) {
      const key = allowKeyOf(finding);
      const where = hasOutputs ? 'in this frame, in all its crops' : 'here';
      const button = deed('Allow …', `Allow ${key} ${where}, and say why`, () => {
        askWhy(button, key, (reason) => {
          this.#user.allow(key, reason);
        });
      });
      button.classList.add('allow');
      deeds.append(button);
    }
    return row;
  }
}

/** What another rule knows about the cause. */
function relatedFact({ rule, message }: RelatedFact): HTMLElement {
  return element('span', 'related', [new Text(`${message} `), element('span', 'rule', rule)]);
}

function deed(words: string, title: string, act: () => void): HTMLButtonElement {
  const button = element('button', 'deed', words);
  button.type = 'button';
  button.title = title;
  if (words !== title) button.setAttribute('aria-label', title);
  button.addEventListener('click', act);
  return button;
}

/** How many there are of each kind. */
export function countWords(findings: readonly Pick<Finding, 'severity'>[]): string {
  const counts = SEVERITIES.map((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? '' : counted(count, SEVERITY_WORDS[severity]);
  });
  return counts.filter((words) => words !== '').join(', ') || 'nothing found';
}
