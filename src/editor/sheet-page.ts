import { randomBytes } from 'node:crypto';
import type { Webview } from 'vscode';
import { Uri } from 'vscode';
import type { Act } from '../panel/sheet-messages.ts';

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

/** The sheet's page: no data of any session is in it, no style or script but ours, nothing from elsewhere. */
export function sheetPage(webview: Webview, extensionFolder: Uri): string {
  const nonce = randomBytes(16).toString('base64');
  const address = (...path: string[]): string =>
    webview.asWebviewUri(Uri.joinPath(extensionFolder, ...path)).toString();
  const policy = `default-src 'none'; img-src ${webview.cspSource}; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  const choices = CHOICES.map(
    ([id, label]) => `<label>${label} <select id="filter-${id}"><option value="">any</option></select></label>`,
  );
  const buttons = BUTTONS.map(([act, label]) => `<button type="button" value="${act}" disabled>${label}</button>`);
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${address('media', 'sheet.css')}">
<title>Contact sheet</title>
</head>
<body class="empty">
<header>
<h1 id="session-name"></h1>
<p id="counts" role="status"></p>
<form id="filters" role="search" aria-label="Which frames are shown">
<label>Name <input type="search" id="filter-name" autocomplete="off" spellcheck="false"></label>
${choices.join('\n')}
<label><input type="checkbox" id="filter-needs-you"> Needs you</label>
<button type="button" id="filter-none">Show All</button>
</form>
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
</footer>
<script nonce="${nonce}" src="${address('dist', 'sheet.js')}"></script>
</body>
</html>`;
}
