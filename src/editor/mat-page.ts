import type { Uri, Webview } from 'vscode';
import { SWITCHES, type Switch } from '../panel/messages.ts';
import { webviewPage } from './webview-page.ts';

const LABELS: Readonly<Record<Switch, string>> = {
  'keep-shape': 'Keep the shape',
  'body-map': 'Body map',
  'as-saved': 'Crop as saved',
  thirds: 'Thirds',
  centre: 'Centre and symmetry',
  'eye-line': 'Eye line',
  'safe-margin': 'Safe margin',
  widths: 'Widths',
};
const MEANINGS: Readonly<Record<Switch, string>> = {
  'keep-shape': 'An edge that is dragged takes others along, so that the crop keeps its shape',
  'body-map': 'The bodies and joints as they were measured; each joint can be moved',
  'as-saved': 'The crop that the saved file has, beside the one that is tried',
  thirds: 'The lines that part the crop in three, across and upright',
  centre: 'The middle of the crop, and the scene’s own line of symmetry where one was found',
  'eye-line': 'The height of the eyes, and where they may be',
  'safe-margin': 'How far an edge has to stay from the bodies',
  widths: 'Where bodies and clothing are narrow, which is good for an edge, and where they are wide',
};

/** Frames follow one another as their lines in the text do. Lines in a box of 16 × 16. */
const UP = 'M8 13V3M3.5 7.5L8 3l4.5 4.5';
const DOWN = 'M8 3v10M3.5 8.5L8 13l4.5-4.5';
const FOUND = 'M8 1.8L15 14H1zM8 6v4M8 11.4v1.2';

function icon(line: string): string {
  return `<svg class="icon" viewBox="0 0 16 16" aria-hidden="true"><path d="${line}"/></svg>`;
}

/** The mat's page; no data of any session is in it. */
export function matPage(webview: Webview, extensionFolder: Uri): string {
  const switches = SWITCHES.map(
    (value) => `<label title="${MEANINGS[value]}"><input type="checkbox" value="${value}"> ${LABELS[value]}</label>`,
  );
  const body = `<p id="reason" role="status">Put the cursor on a frame.</p>
<header>
<h1><span id="name"></span> <small id="place"></small> <small id="state"></small></h1>
<label id="output-box" hidden>Crop <select id="output"></select></label>
<nav aria-label="Frames">
<button type="button" id="go-previous" aria-label="Previous" title="Previous frame (Page Up)">${icon(UP)}</button>
<button type="button" id="go-next" aria-label="Next" title="Next frame (Page Down)">${icon(DOWN)}</button>
<button type="button" id="go-found" title="Next with findings">${icon(DOWN)}${icon(FOUND)}<span class="words">Next with findings</span></button>
</nav>
</header>
<main>
<div id="stage">
<div id="picture">
<img id="photo" alt="the whole photo" draggable="false" hidden>
<img id="detail" alt="" draggable="false" hidden>
</div>
<div id="crop" role="group" tabindex="0"></div>
<svg id="overlay" aria-hidden="true"><g id="bodies"></g><g id="marks"></g></svg>
<div id="joints" role="group" aria-label="Joints"></div>
<div id="surface" role="application" aria-label="" tabindex="0" hidden></div>
</div>
<div id="ladder" role="group" aria-label="Lengths"></div>
</main>
<section aria-label="About this crop">
<div id="prompting">
<p id="prompt" role="status"></p>
<div id="placing" role="group" aria-label="Placing a person" hidden>
<button type="button" id="placing-skip">Not seen</button>
<button type="button" id="placing-back">Back</button>
<button type="button" id="placing-done">Enough</button>
<button type="button" id="placing-stop">Give up</button>
</div>
</div>
<div id="said">
<h2>Findings <small id="summary" role="status"></small> <small id="facts"></small></h2>
<button type="button" id="approve"></button>
</div>
<p id="notice" role="status"></p>
<ul id="findings" aria-label="Findings" tabindex="0"></ul>
<div id="controls">
<div id="tools">
<div id="level" role="group" aria-label="Level">
<label for="level-degrees">Turned by</label>
<input type="number" id="level-degrees" min="-45" max="45" step="0.1" value="0"><span aria-hidden="true">°</span>
<input type="range" id="level-slider" min="-8" max="8" step="0.05" value="0" aria-label="Turned by, coarse">
<button type="button" id="level-line" aria-pressed="false">Level along a line</button>
<button type="button" id="level-measured" hidden></button>
</div>
<div id="zoom" role="group" aria-label="Closer or further">
<button type="button" id="zoom-out" aria-label="Further" title="Further (-)">−</button>
<button type="button" id="zoom-in" aria-label="Closer" title="Closer (+)">+</button>
<button type="button" id="zoom-fit" title="0">All</button>
<button type="button" id="zoom-one" aria-label="1:1, pixel by pixel" title="Pixel by pixel (1)">1:1</button>
</div>
</div>
<div id="switches" role="group" aria-label="What is shown">${switches.join('')}</div>
<div id="people" role="group" aria-label="People">
<ul id="people-list" aria-label="People in the photo"></ul>
<button type="button" id="people-add">Add a person</button>
<button type="button" id="people-back">Take back the last correction</button>
</div>
</div>
</section>`;
  return webviewPage(webview, extensionFolder, { name: 'mat', title: 'Cutting mat', body });
}
