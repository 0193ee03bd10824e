import type { Edges } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Finding } from '../../rules/finding.ts';
import { element } from '../page/elements.ts';
import { SEVERITIES, severityIcon } from '../page/severity-icon.ts';
import { countWords } from './findings-list.ts';
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
    const button = element('button', 'rung', [
      smallPicture(on, edges, user.address),
      element('span', 'length', LENGTH_WORDS[length]),
      ...countsOf(findings),
      ...(isOtherShape ? [element('span', 'other-shape', OTHER_SHAPE)] : []),
    ]);
    button.type = 'button';
    button.disabled = on.frame.isFinal;
    if (length === on.was.length) button.setAttribute('aria-current', 'true');
    const found = findings.length === 0 ? 'no warnings' : countWords(findings);
    const words = [LENGTH_WORDS[length], found, ...(isOtherShape ? [OTHER_SHAPE] : [])].join(', ');
    button.setAttribute('aria-label', words);
    button.title = words;
    button.addEventListener('click', () => {
      user.choose(offered);
    });
    return button;
  });
  column.replaceChildren(...rungs);
  // Who goes along the ladder with the keys stays on it.
  rungs[Math.min(place, rungs.length - 1)]?.focus({ preventScroll: true });
}

/** How many errors and warnings, each with the editor's sign for it. */
function countsOf(findings: readonly Pick<Finding, 'severity'>[]): HTMLElement[] {
  return SEVERITIES.flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [element('span', 'count', [severityIcon(severity), new Text(String(count))])];
  });
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
