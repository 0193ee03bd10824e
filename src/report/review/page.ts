import type { FindingChanges } from '../../session/review/finding-changes.ts';
import type { Review, ReviewedFrame } from '../../session/review/review.ts';
import type { ReviewPictures } from '../../session/review/review-pictures.ts';
import { text } from '../html/escape.ts';
import { findingsList, findingWords } from '../html/findings.ts';
import { GEOMETRY_STYLE } from '../html/geometry.ts';
import { htmlPage, type PageHost } from '../html/page.ts';
import { figures, outputFigures } from './figures.ts';
import { OVERLAY_SCRIPT, OVERLAY_STYLE, overlayPart } from './overlay.ts';
import { changeWords, lengthWords, reviewNotes, reviewSummary, sinceWords } from './words.ts';

/** Pages with more frames than this have no list of them at their head. */
const MOST_LISTED = 400;

/**
 * A review as one HTML page. Without a host it is a file that needs nothing else: it loads nothing.
 * @param pictures of each frame, in the frames' order; a file has them in their addresses
 * @param notes what else has to be known about the comparison as a whole
 */
export function formatReviewPage(
  review: Review,
  pictures: readonly ReviewPictures[],
  { notes = [], host }: { readonly notes?: readonly string[]; readonly host?: PageHost } = {},
): Promise<string> {
  const { session, frames, findings } = review;
  const title = `Crops of ${session.manifest.session?.value ?? review.past.name} since ${review.revision}`;
  const ofSession = changesPart(findings);
  const body = `<main>
<header>
<h1>${text(title)}</h1>
<p>${text(reviewSummary(review))}. Compared with ${text(sinceWords(review))}, <code>${text(review.past.name)}</code>.</p>
<p class="quiet">Lines on the whole photo: ${sample('then')} the crop then, ${sample('now')} the crop now; what is cut away now is darker. Pixels are those of the photo.</p>
${[...reviewNotes(review), ...notes].map((note) => `<p class="note">${text(note)}</p>`).join('\n')}
${ofSession === '' ? '' : `<section><h2>About the manifest as a whole</h2>${ofSession}</section>`}
${frames.length > 1 && frames.length <= MOST_LISTED ? list(frames) : ''}
</header>
${frames.map((frame, place) => article(frame, place, pictures[place] ?? {})).join('\n')}
${frames.length === 0 ? '<p>No frame is another one than it was.</p>' : ''}
</main>
`;
  return htmlPage({ title, style: GEOMETRY_STYLE + OVERLAY_STYLE + STYLE, script: OVERLAY_SCRIPT, body, host });
}

function sample(as: 'then' | 'now'): string {
  return `<svg class="sample" width="44" height="12" aria-hidden="true"><path class="under" d="M0 6H44"/><path class="line ${as}" d="M0 6H44"/></svg>`;
}

function list(frames: readonly ReviewedFrame[]): string {
  const items = frames.map((frame, place) => {
    const { fresh, gone } = frame.findings;
    const found = [
      ...(fresh.length > 0 ? [`${fresh.length} new`] : []),
      ...(gone.length > 0 ? [`${gone.length} gone`] : []),
    ];
    const first = changeWords(frame)[0]!;
    return `<li><a href="#frame-${place + 1}">${text(frame.name)}</a> <span class="quiet">${text([first, ...found].join('; '))}</span></li>`;
  });
  return `<nav aria-label="Frames that changed"><ol>${items.join('\n')}</ol></nav>`;
}

function article(frame: ReviewedFrame, place: number, pictures: ReviewPictures): string {
  const { kind, name } = frame;
  const id = `frame-${place + 1}`;
  const length = lengthWords(frame);
  const drawn = figures(frame, pictures);
  return `<article id="${id}" aria-labelledby="${id}-name">
<div class="name"><h2 id="${id}-name">${text(name)}</h2><span class="kind ${kind}">${kind}</span>${length === undefined ? '' : `<span class="quiet">${text(length)}</span>`}</div>
${drawn}
${frame.then && frame.now ? overlayPart(name) : ''}
${outputFigures(frame, pictures)}
<div class="said">
<div><h3>What changed</h3><ul>${changeWords(frame)
    .map((words) => `<li>${text(words)}</li>`)
    .join('')}</ul></div>
<div>${changesPart(frame.findings) || '<h3>Findings</h3><p class="quiet">The same as before.</p>'}${keptPart(frame.findings)}</div>
</div>
</article>`;
}

function changesPart({ gone, fresh, judgedOtherwise }: FindingChanges): string {
  const changed = judgedOtherwise.map(
    ({ then, now }) => `<li>${findingWords(now)} <span class="quiet">(${then.allowed === undefined ? then.severity : 'allowed'} before)</span></li>`, // prettier-ignore
  );
  return [
    ...(fresh.length > 0 ? [`<h3>New findings</h3>${findingsList(fresh)}`] : []),
    ...(gone.length > 0
      ? [`<h3><span class="good">No longer found</span></h3><div class="gone">${findingsList(gone)}</div>`]
      : []),
    ...(changed.length > 0 ? [`<h3>Judged otherwise</h3><ul>${changed.join('')}</ul>`] : []),
  ].join('\n');
}

function keptPart({ kept }: FindingChanges): string {
  if (kept.length === 0) return '';
  return `<h3>Found before and now</h3>${findingsList(kept)}`;
}

const STYLE = `
header { margin-bottom: 1.5rem; } .note { border-left: 3px solid var(--rule); padding-left: .6rem; margin: .4rem 0; }
nav ol { margin: .75rem 0 0; padding-left: 1.6rem; columns: 22rem; column-gap: 2rem; } nav li { break-inside: avoid; }
article { background: var(--sheet); margin: 0 0 1.5rem; padding: 1rem 1.1rem 1.1rem; border-top: 3px solid var(--rule); }
.name { display: flex; flex-wrap: wrap; gap: .25rem .8rem; align-items: baseline; margin-bottom: .7rem; }
.kind { font-size: .8rem; color: var(--quiet); } .kind.added { color: var(--good); } .kind.removed { color: var(--error); }
.figures { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 1rem; align-items: end; }
.figures.one { grid-template-columns: repeat(2, minmax(0, 1fr)); }
.output { margin-top: .6rem; } .output h3 { margin-bottom: .35rem; } .output .frame > img, .output .frame > svg { max-height: 14rem; }
figure { margin: 0; } figcaption { font-size: .8rem; color: var(--quiet); margin-top: .3rem; }
.frame { display: flex; align-items: flex-end; justify-content: flex-start; }
.frame > img, .frame > svg { max-height: 27rem; width: auto; height: auto; max-width: 100%; }
.said { display: grid; grid-template-columns: minmax(0, 2fr) minmax(0, 3fr); gap: 0 1.5rem; }
.gone .error, .gone .warning { color: var(--quiet); font-weight: 400; }
.sample { display: inline-block; vertical-align: middle; width: 44px; }
@media (max-width: 46rem) { .said { grid-template-columns: 1fr; } }
@media (max-width: 32rem) { .figures, .figures.one { grid-template-columns: 1fr; } }
@media print { article { background: none; padding: .5rem 0; } nav { display: none; } .frame > img, .frame > svg { max-height: 8cm; } }
`;
