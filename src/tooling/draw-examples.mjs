// Draws the example scene of every rule's page: `node src/tooling/draw-examples.mjs` writes example.svg beside each page.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * @typedef {{ x: number, y: number, w: number, h: number, straighten?: number }} Crop in fractions of the photo, in the turned picture
 * @typedef {{ id: number, points: Record<string, number[]>, head_top?: number[], outline?: number[][] }} Person
 * @typedef {{ photo: [number, number], straighten?: number, compose?: string, tilt?: { degrees: number }, horizon?: { y: number }, crop: Crop, clean: Crop, people: Person[], expect: string[] }} Example
 * @typedef {{ x: number, y: number }} Point in units of the drawing
 */

const PANEL_WIDTH = 200;
const MARGIN = 20;
const CAPTION = 26;

// Ink and paper change with the reader's theme; what is wrong differs by weight and dashes, not by colour alone.
const STYLE = `
    text { font: 13px sans-serif; fill: #333; }
    .photo { fill: #f2efe9; stroke: #999; }
    .body { stroke: #777; fill: #777; stroke-linecap: round; stroke-linejoin: round; }
    .outline { fill: none; stroke: #777; stroke-dasharray: 2 3; }
    .horizon { stroke: #999; }
    .outside { fill: #fff; fill-opacity: 0.65; }
    .crop { fill: none; stroke: #1f4e8c; stroke-width: 1.5; }
    .third { stroke: #1f4e8c; stroke-width: 0.75; stroke-dasharray: 3 3; }
    .broken { stroke: #b3500a; stroke-width: 4; stroke-dasharray: 7 4; }
    @media (prefers-color-scheme: dark) {
      text { fill: #ddd; }
      .photo { fill: #33312d; stroke: #888; }
      .body { stroke: #aaa; fill: #aaa; }
      .outline { stroke: #aaa; }
      .outside { fill: #111; }
      .crop, .third { stroke: #8ab8f5; }
      .broken { stroke: #f0a35e; }
    }`;

/**
 * The example as one SVG picture: the crop as the page has it on the left, a clean one on the right.
 * @param {string} id of the rule
 * @param {Example} example
 */
export function drawExample(id, example) {
  const [width, height] = example.photo;
  const panelHeight = (PANEL_WIDTH * height) / width;
  const totalWidth = 2 * PANEL_WIDTH + 3 * MARGIN;
  const totalHeight = panelHeight + 2 * MARGIN + CAPTION;
  const broken = example.expect.map((words) => words.split(' ').at(-1) ?? '');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${totalWidth} ${short(totalHeight)}" width="${totalWidth}" role="img">
  <title>${id}: a crop before and after</title>
  <style>${STYLE}
  </style>
${panel(example, example.crop, broken, MARGIN, panelHeight, 'before')}
${panel(example, example.clean, [], 2 * MARGIN + PANEL_WIDTH, panelHeight, 'after')}
</svg>
`;
}

/**
 * @param {Example} example
 * @param {Crop} crop
 * @param {string[]} broken names of the edges that something is said of
 * @param {number} start where the panel begins
 * @param {number} panelHeight
 * @param {string} caption
 */
function panel(example, crop, broken, start, panelHeight, caption) {
  const degrees = crop.straighten ?? example.straighten;
  const turn = degrees ? ` transform="rotate(${degrees} ${PANEL_WIDTH / 2} ${short(panelHeight / 2)})"` : '';
  const left = crop.x * PANEL_WIDTH;
  const right = (crop.x + crop.w) * PANEL_WIDTH;
  const top = crop.y * panelHeight;
  const bottom = (crop.y + crop.h) * panelHeight;
  /** @type {Record<string, [number, number, number, number]>} */
  const edges = {
    left: [left, top, left, bottom],
    top: [left, top, right, top],
    right: [right, top, right, bottom],
    bottom: [left, bottom, right, bottom],
  };
  const lines = [...new Set(broken)].flatMap((name) => {
    const edge = edges[name];
    return edge ? [line('broken', { x: edge[0], y: edge[1] }, { x: edge[2], y: edge[3] })] : [];
  });
  const thirds = example.compose === 'thirds' ? [1 / 3, 2 / 3].map((share) => left + share * (right - left)) : [];
  for (const x of thirds) lines.push(line('third', { x, y: top }, { x, y: bottom }));
  const hole = `M${short(left)} ${short(top)}H${short(right)}V${short(bottom)}H${short(left)}Z`;
  return `  <g transform="translate(${start} ${MARGIN})">
    <g${turn}>
      <rect class="photo" width="${PANEL_WIDTH}" height="${short(panelHeight)}"/>
${[...horizonOf(example, panelHeight), ...example.people.map((person) => drawPerson(person, panelHeight))].join('\n')}
    </g>
    <path class="outside" fill-rule="evenodd" d="M-${MARGIN / 2} -${MARGIN / 2}H${PANEL_WIDTH + MARGIN / 2}V${short(panelHeight + MARGIN / 2)}H-${MARGIN / 2}Z${hole}"/>
    <path class="crop" d="${hole}"/>
${lines.map((text) => `    ${text}\n`).join('')}    <text x="${PANEL_WIDTH / 2}" y="${short(panelHeight + CAPTION)}" text-anchor="middle">${caption}</text>
  </g>`;
}

/**
 * The horizon, leaning as the photo does.
 * @param {Example} example
 * @param {number} panelHeight
 */
function horizonOf({ horizon, tilt }, panelHeight) {
  if (!horizon) return [];
  const rise = (PANEL_WIDTH / 2) * Math.tan(((tilt?.degrees ?? 0) * Math.PI) / 180);
  const middle = horizon.y * panelHeight;
  return [`      ${line('horizon', { x: 0, y: middle + rise }, { x: PANEL_WIDTH, y: middle - rise })}`];
}

const LIMBS = [
  ['shoulder', 'elbow', 0.035],
  ['elbow', 'wrist', 0.03],
  ['hip', 'knee', 0.055],
  ['knee', 'ankle', 0.04],
  ['wrist', 'middle_finger4', 0.028],
  ['wrist', 'thumb4', 0.012],
  ['ankle', 'big_toe', 0.03],
  ['ankle', 'small_toe', 0.03],
];

/**
 * A stick figure, seen from the front.
 * @param {Person} person
 * @param {number} panelHeight
 */
function drawPerson(person, panelHeight) {
  /** @param {number[] | undefined} point @returns {Point | undefined} */
  const place = (point) => point && { x: (point[0] ?? 0) * PANEL_WIDTH, y: (point[1] ?? 0) * panelHeight };
  /** @param {string} name */
  const at = (name) => place(person.points[name]);
  const parts = [];
  const headTop = place(person.head_top);
  const [leftEye, rightEye] = [at('left_eye'), at('right_eye')];
  const [leftShoulder, rightShoulder] = [at('left_shoulder'), at('right_shoulder')];
  const [leftHip, rightHip] = [at('left_hip'), at('right_hip')];
  // The head is 14 % of the height (eyes in its middle, see proportions.ts).
  const size = headTop && leftEye ? (leftEye.y - headTop.y) / 0.08 : panelHeight / 2;
  for (const side of ['left', 'right']) {
    for (const [from, to, share] of LIMBS) {
      const a = at(`${side}_${String(from)}`);
      const b = at(`${side}_${String(to)}`);
      if (a && b) parts.push(line('body', a, b, Number(share) * size));
    }
  }
  if (leftShoulder && rightShoulder && leftHip && rightHip) {
    const corners = [leftShoulder, rightShoulder, rightHip, leftHip].map(({ x, y }) => `${short(x)},${short(y)}`);
    parts.push(`<polygon class="body" stroke-width="${short(0.05 * size)}" points="${corners.join(' ')}"/>`);
  }
  if (headTop && leftEye && rightEye) {
    const middle = { x: (leftEye.x + rightEye.x) / 2, y: (leftEye.y + rightEye.y) / 2 };
    const radius = middle.y - headTop.y;
    if (leftShoulder && rightShoulder) {
      const neck = { x: (leftShoulder.x + rightShoulder.x) / 2, y: (leftShoulder.y + rightShoulder.y) / 2 };
      parts.push(line('body', middle, neck, 0.05 * size));
    }
    parts.push(
      `<ellipse class="body" cx="${short(middle.x)}" cy="${short(middle.y)}" rx="${short(radius * 0.7)}" ry="${short(radius)}"/>`,
    );
  }
  if (person.outline) {
    const corners = person.outline
      .map((corner) => place(corner))
      .map((corner) => `${short(corner?.x ?? 0)},${short(corner?.y ?? 0)}`);
    parts.push(`<polygon class="outline" points="${corners.join(' ')}"/>`);
  }
  return parts.map((part) => `      ${part}`).join('\n');
}

/**
 * @param {string} name class
 * @param {Point} a
 * @param {Point} b
 * @param {number} [width]
 */
function line(name, a, b, width) {
  const stroke = width === undefined ? '' : ` stroke-width="${short(width)}"`;
  return `<line class="${name}"${stroke} x1="${short(a.x)}" y1="${short(a.y)}" x2="${short(b.x)}" y2="${short(b.y)}"/>`;
}

/** @param {number} value */
function short(value) {
  return String(Math.round(value * 10) / 10);
}

/**
 * The example scene in a page: the block that is fenced as json.
 * @param {string} page
 * @returns {Example}
 */
export function exampleOf(page) {
  const block = /```json\n([\s\S]*?)\n```/.exec(page)?.[1];
  if (block === undefined) throw new Error('The page has no example scene: a block fenced with ```json.');
  return JSON.parse(block);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const rules = new URL('../rules/', import.meta.url);
  for (const entry of readdirSync(rules, { withFileTypes: true })) {
    const page = new URL(`${entry.name}/README.md`, rules);
    if (!entry.isDirectory() || entry.name === 'testing') continue;
    const picture = drawExample(entry.name, exampleOf(readFileSync(page, 'utf8')));
    writeFileSync(new URL(`${entry.name}/example.svg`, rules), picture);
  }
}
