import { randomBytes } from 'node:crypto';
import type { Webview } from 'vscode';
import { Uri } from 'vscode';

const SWITCHES: readonly (readonly [value: string, label: string, isOn: boolean])[] = [
  ['keep-shape', 'Keep the shape', true],
  ['body-map', 'Body map', false],
  ['thirds', 'Thirds', false],
  ['centre', 'Centre', false],
  ['eye-line', 'Eye line', false],
  ['safe-margin', 'Safe margin', false],
];

/** The mat's page: no data of any session is in it, no style or script but ours, nothing from elsewhere. */
export function matPage(webview: Webview, extensionFolder: Uri): string {
  const nonce = randomBytes(16).toString('base64');
  const address = (...path: string[]): string =>
    webview.asWebviewUri(Uri.joinPath(extensionFolder, ...path)).toString();
  const policy = `default-src 'none'; img-src ${webview.cspSource}; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  const switches = SWITCHES.map(
    ([value, label, isOn]) =>
      `<label><input type="checkbox" value="${value}"${isOn ? ' checked' : ''}> ${label}</label>`,
  );
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${address('media', 'mat.css')}">
<title>Cutting mat</title>
</head>
<body class="empty">
<p id="reason" role="status">Put the cursor on a frame.</p>
<header>
<h1><span id="name"></span> <small id="place"></small> <small id="state"></small></h1>
<nav aria-label="Frames">
<button type="button" id="go-previous">Previous</button>
<button type="button" id="go-next">Next</button>
<button type="button" id="go-found">Next with findings</button>
</nav>
</header>
<main>
<div id="stage">
<img id="photo" alt="the whole photo" draggable="false" hidden>
<div id="crop" role="group" tabindex="0"></div>
<svg id="overlay" aria-hidden="true"></svg>
</div>
<div id="ladder" role="group" aria-label="Lengths"></div>
</main>
<footer>
<p id="facts"></p>
<div id="switches" role="group" aria-label="What is shown">${switches.join('')}</div>
<ul id="findings" aria-live="polite" aria-label="Findings"></ul>
</footer>
<script nonce="${nonce}" src="${address('dist', 'mat.js')}"></script>
</body>
</html>`;
}
