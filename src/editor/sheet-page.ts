import type { Uri, Webview } from 'vscode';
import type { Act } from '../panel/sheet-messages.ts';
import { webviewPage } from './webview-page.ts';

const CHOICES: readonly (readonly [id: string, label: string])[] = [
  ['severity', 'Found'],
  ['rule', 'Rule'],
  ['people', 'People'],
  ['length', 'Length'],
];

const BUTTONS: readonly (readonly [act: Act, label: string])[] = [
  ['fix', 'Fix'],
  ['fix-rule', 'Fix One Rule…'],
  ['allow', 'Allow…'],
  ['approve', 'Approve'],
  ['take-back', 'Take Back Approval'],
  ['length', 'Length…'],
  ['compose', 'Composition…'],
  ['aspect', 'Shape…'],
];

/** The sheet's page; no data of any session is in it. */
export function sheetPage(webview: Webview, extensionFolder: Uri): string {
  const choices = CHOICES.map(
    ([id, label]) => `<label>${label} <select id="filter-${id}"><option value="">any</option></select></label>`,
  );
  const buttons = BUTTONS.map(([act, label]) => `<button type="button" value="${act}" disabled>${label}</button>`);
  const body = `<header>
<h1 id="session-name"></h1>
<label id="crops-box" hidden>Crops <select id="crops"></select></label>
<p id="counts" role="status"></p>
<details id="filter-box" open>
<summary>Filter</summary>
<form id="filters" role="search" aria-label="Which frames are shown">
<label>Name <input type="search" id="filter-name" autocomplete="off" spellcheck="false"></label>
${choices.join('\n')}
<label><input type="checkbox" id="filter-needs-you"> Needs you</label>
<button type="button" id="filter-none">Show All</button>
</form>
</details>
</header>
<main>
<p id="reason" role="status">Reading the session…</p>
<div id="acts" role="group" aria-label="With the selected frames">${buttons.join('')}</div>
<p id="told" role="status"></p>
<div id="grid" role="listbox" aria-multiselectable="true" aria-label="Frames" tabindex="0"></div>
<section id="review" aria-labelledby="review-title">
<div id="review-head">
<h2 id="review-title" tabindex="-1"></h2>
<button type="button" id="review-write" class="first">Write</button>
<button type="button" id="review-dismiss">Change Nothing</button>
</div>
<p id="review-notice"></p>
<ul id="review-rows" aria-label="New crops"></ul>
<div id="review-rest"></div>
</section>
</main>
<footer>
<ul id="found" tabindex="0" aria-label="Findings"></ul>
</footer>`;
  return webviewPage(webview, extensionFolder, { name: 'sheet', title: 'Contact sheet', body });
}
