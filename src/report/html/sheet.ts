import { LineIndex } from '../../manifest/position.ts';
import { countFindings } from '../../session/counts.ts';
import type { FrameCheck, SessionCheck } from '../../session/check.ts';
import { factsOf } from '../../session/frame-facts.ts';
import { isPressing } from '../../session/located-finding.ts';
import type { Picture } from '../../session/pictures.ts';
import type { Session } from '../../session/session.ts';
import { summaryWords } from '../text.ts';
import { text } from './escape.ts';
import { findingsList } from './findings.ts';
import { croppedBodies, GEOMETRY_STYLE } from './geometry.ts';
import { pageAround } from './page.ts';

/** The frames of a check with their pictures, one after the other. */
export type SheetFrames = AsyncIterable<{ readonly check: FrameCheck; readonly picture?: Picture }>;

/**
 * A contact sheet: every frame as it would be delivered, with what is found about it, in one HTML file that needs nothing
 * else. It comes in pieces, so that thousands of pictures are never in memory at once.
 */
export async function* contactSheet(
  checks: readonly SessionCheck[],
  framesOf: (check: SessionCheck) => SheetFrames,
): AsyncGenerator<string> {
  const names = checks.map(({ session }) => session.manifest.session?.value ?? session.path);
  const title = `Contact sheet: ${names.join(', ')}`;
  const { head, tail } = await pageAround({ title, style: GEOMETRY_STYLE + STYLE });
  yield `${head}<main>\n<h1>${text(title)}</h1>\n<p>${text(summaryWords(countFindings(checks)))}</p>\n${CHOICE}\n`;
  for (const check of checks) {
    const { session, findings } = check;
    const told = findings.length === 0 ? '' : findingsList(findings);
    yield `<section aria-label="${text(session.path)}"><h2><code>${text(session.path)}</code></h2>${told}\n<div class="sheet">\n`;
    const lines = new LineIndex(session.manifest.text);
    for await (const { check: frame, picture } of framesOf(check)) yield card(session, frame, lines, picture);
    yield '</div></section>\n';
  }
  yield `</main>\n${tail}`;
}

/** Frames with errors or warnings alone: a choice that needs no script. */
const CHOICE = `<fieldset class="choice screen"><legend>Show</legend>
<label><input type="radio" name="shown" checked> all frames</label>
<label><input type="radio" name="shown" class="only-found"> those with errors or warnings</label></fieldset>`;

function card(session: Session, check: FrameCheck, lines: LineIndex, picture: Picture | undefined): string {
  const { frame, findings } = check;
  const { line } = lines.positionAt(frame.range.start);
  const found = findings.some(isPressing);
  const worst = findings.some((finding) => isPressing(finding) && finding.severity === 'error') ? 'error' : 'warning';
  const facts = factWords(session, check);
  return `<article class="${found ? `found ${worst}-edge` : 'clean'}">
<div class="frame">${drawnFrame(session, check, picture)}</div>
<h3>${text(frame.name)}${frame.final?.value === true ? ' <span class="good">approved</span>' : ''}</h3>
<p class="quiet">${text([...facts, `line ${line}`].join(' · '))}</p>
${frame.note ? `<p class="remark">“${text(frame.note.value)}”</p>` : ''}
${findings.length === 0 ? '' : findingsList(findings)}
</article>
`;
}

function drawnFrame(session: Session, check: FrameCheck, picture: Picture | undefined): string {
  const { frame, crop, straighten } = check;
  const label = `${frame.name} as it would be delivered`;
  if (picture) return `<img src="${text(picture.address)}" alt="${text(label)}">`;
  const measured = session.people.photos.get(frame.photo.value);
  if (!measured) return '<p class="quiet">no picture</p>';
  return croppedBodies(measured.size, { crop, degrees: straighten }, measured.people, `${label}, drawn: the photo is not here`); // prettier-ignore
}

function factWords(session: Session, check: FrameCheck): string[] {
  const { length, shape, pixels } = factsOf(session, check);
  return [
    ...(length === undefined ? [] : [length]),
    ...(shape === undefined ? [] : [shape]),
    ...(pixels ? [`${pixels.width} × ${pixels.height} px`] : []),
  ];
}

const STYLE = `
.sheet { display: grid; grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); gap: 1.1rem; margin-top: .8rem; align-items: start; }
article { background: var(--sheet); padding: .7rem .75rem .8rem; font-size: .85rem; border-top: 3px solid transparent; }
article.error-edge { border-top-color: var(--error); } article.warning-edge { border-top-color: var(--warning); }
.frame { height: 17rem; display: flex; align-items: flex-end; justify-content: center; }
.frame > img, .frame > svg { max-height: 100%; max-width: 100%; width: auto; height: auto; }
article h3 { font-size: .92rem; margin: .6rem 0 0; color: var(--ink); overflow-wrap: anywhere; }
.remark { font-style: italic; } section > h2 { margin-top: 1.6rem; } article ul { margin-top: .35rem; }
.choice { border: 0; padding: 0; margin: .8rem 0 0; display: flex; flex-wrap: wrap; gap: .3rem 1.1rem; align-items: center; } .choice legend { float: left; padding: 0; color: var(--quiet); }
main:has(.only-found:checked) article.clean { display: none; }
@media print { .sheet { grid-template-columns: repeat(4, 1fr); gap: .4cm; } .frame { height: 5.2cm; } article { background: none; padding: 0; } }
`;
