import { text } from '../html/escape.ts';

/**
 * Then and now laid over each other, parted by a line that a slider moves: a plain range input, so that arrow keys, Home
 * and End move it. The script shows it and takes the pictures that are on the page already; without a script, and on
 * paper, they stand side by side.
 */
export function overlayPart(name: string): string {
  return `<details class="over screen" hidden><summary>Lay then and now over each other</summary>
<div class="stage"><span class="tag left">then</span><span class="tag right">now</span></div>
<input type="range" min="0" max="100" value="50" aria-label="${text(`${name}: how much of the picture as it was is shown`)}">
</details>`;
}

export const OVERLAY_SCRIPT = `
for (const over of document.querySelectorAll('details.over')) {
  const article = over.closest('article');
  const side = (name) => article.querySelector(':scope > .figures [data-side=' + name + '] > :is(img, svg)');
  if (!side('then') || !side('now')) continue;
  over.hidden = false;
  const stage = over.querySelector('.stage');
  const slider = over.querySelector('input');
  const part = () => {
    stage.style.setProperty('--part', slider.value + '%');
    slider.setAttribute('aria-valuetext', slider.value + ' percent then');
  };
  over.addEventListener('toggle', () => {
    if (!over.open || stage.querySelector('.then')) return;
    for (const name of ['then', 'now']) {
      const copy = side(name).cloneNode(true);
      copy.classList.add(name);
      stage.prepend(copy);
    }
    part();
  });
  slider.addEventListener('input', part);
}
`;

export const OVERLAY_STYLE = `
.over { margin-top: .7rem; } .over summary { cursor: pointer; width: max-content; max-width: 100%; color: var(--quiet); }
.stage { position: relative; height: min(38rem, 80vh); margin-top: .6rem; background: var(--figure); overflow: hidden; }
.stage > * { position: absolute; inset: 0; width: 100%; height: 100%; max-width: none; object-fit: contain; }
.stage > .then { clip-path: inset(0 calc(100% - var(--part)) 0 0); background: var(--figure); }
.stage::after { content: ""; position: absolute; top: 0; bottom: 0; left: calc(var(--part) - 1px); width: 2px; background: #fff; box-shadow: 0 0 0 1px #0006; pointer-events: none; }
.stage .tag { inset: auto; bottom: .5rem; width: auto; height: auto; padding: .05rem .45rem; font-size: .8rem; background: #1d1e20; color: #fff; } .tag.left { left: .5rem; } .tag.right { right: .5rem; }
.over input { display: block; width: 100%; margin: .5rem 0 0; accent-color: var(--now); }
`;
