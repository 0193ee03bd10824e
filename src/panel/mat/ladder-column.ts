import type { Edges } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Finding } from '../../rules/finding.ts';
import { element } from '../page/elements.ts';
import { SEVERITIES, SEVERITY_WORDS, severityIcon } from '../page/severity-icon.ts';
import type { FrameOnMat } from './frame-on-mat.ts';
import { offeredLengths, type OfferedLength } from './ladder-rungs.ts';

/** Pixels of the page. */
const PICTURE = { width: 66, height: 58 };
const OTHER_SHAPE = 'another shape';

/** What the ladder needs from the mat. */
export interface LadderUser {
  /** The whole photo. */
  readonly address: string;
  readonly keepsShape: boolean;
  choose(offered: OfferedLength): void;
}

/** The lengths that this picture has, each as a small picture that is one click away, with what it would be found for. */
export function showLadder(column: HTMLElement, on: FrameOnMat, user: LadderUser): void {
  const place = column.contains(document.activeElement) ? [...column.children].indexOf(document.activeElement!) : -1;
  const rungs = offeredLengths(on, user.keepsShape).map((offered) => {
    const { length, edges, findings, isOtherShape } = offered;
    const words = [
      element('span', 'length', LENGTH_WORDS[length]),
      ...countsOf(findings),
      ...(isOtherShape ? [element('span', 'other-shape', OTHER_SHAPE)] : []),
    ];
    // For who listens; they stand below one another for who looks.
    for (const each of words.slice(0, -1)) each.append(spoken(','));
    const button = element('button', 'rung', [smallPicture(on, edges, user.address), ...words]);
    button.type = 'button';
    button.disabled = on.frame.isFinal;
    if (length === on.was.length) button.setAttribute('aria-current', 'true');
    button.addEventListener('click', () => {
      user.choose(offered);
    });
    return button;
  });
  column.replaceChildren(...rungs);
  // Who goes along the ladder with the keys stays on it.
  rungs[Math.min(place, rungs.length - 1)]?.focus({ preventScroll: true });
}

/** How many errors and warnings, each with the editor's sign for it; the words are for who listens. */
function countsOf(findings: readonly Pick<Finding, 'severity'>[]): HTMLElement[] {
  if (findings.length === 0) return [spoken('no warnings')];
  return SEVERITIES.flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    if (count === 0) return [];
    const words = spoken(` ${SEVERITY_WORDS[severity]}${count === 1 ? '' : 's'}`);
    return [element('span', 'count', [severityIcon(severity), new Text(String(count)), words])];
  });
}

function spoken(words: string): HTMLElement {
  return element('span', 'spoken', words);
}

function smallPicture({ was: { photo, degrees } }: FrameOnMat, edges: Edges, address: string): HTMLElement {
  const scale = Math.min(PICTURE.width / widthOf(edges), PICTURE.height / heightOf(edges));
  const window = element('span', 'small');
  window.style.width = `${widthOf(edges) * scale}px`;
  window.style.height = `${heightOf(edges) * scale}px`;
  const image = element('img', '');
  image.alt = '';
  image.src = address;
  image.style.width = `${photo.width * scale}px`;
  image.style.height = `${photo.height * scale}px`;
  image.style.left = `${-edges.left * scale}px`;
  image.style.top = `${-edges.top * scale}px`;
  image.style.rotate = `${degrees}deg`;
  window.append(image);
  return window;
}
