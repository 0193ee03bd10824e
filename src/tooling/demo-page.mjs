// @ts-check
/** One page that shows what a fix did: opens from the disk, needs no connection, light or dark as the reader's screen is. */
import { LINES } from './demo-pictures.mjs';

/** @typedef {import('./demo-pictures.mjs').Picture} Picture */
/** @typedef {import('./demo-pictures.mjs').Found} Found */

/**
 * @param {readonly Picture[]} pictures
 * @param {{ summaryBefore: string, summaryAfter: string }} summaries
 * @returns {string} HTML
 */
export function demoPage(pictures, { summaryBefore, summaryAfter }) {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Selvedge: what the fix did</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>What the fix did</h1>
<p>Before: ${text(summaryBefore)}.<br>After: ${text(summaryAfter)}.</p>
<p class="legend">Left the photo, right the picture as it will be delivered.
<span>${sample(LINES.before)} the crop before</span>
<span>${sample(LINES.after)} the crop now</span></p>
${pictures.map(article).join('\n')}
<p>No photo was changed: only the numbers of the crops in the manifest.</p>
</main>
</body>
</html>
`;
}

/** @param {Picture} picture */
function article({ name, jpeg, width, height, before, after }) {
  const source = `data:image/jpeg;base64,${jpeg.toString('base64')}`;
  const alternative = `${name}: the photo with the crop before and the crop now, and the picture as it will be delivered`;
  return `<article>
<h2>${text(name)}</h2>
<img src="${source}" width="${width}" height="${height}" alt="${text(alternative)}" loading="lazy">
<h3>Before</h3>
${list(before.findings)}
<h3>Now</h3>
${list(after.findings)}
</article>`;
}

/** @param {readonly Found[]} findings */
function list(findings) {
  const told = findings.filter(({ allowed }) => allowed === undefined);
  if (told.length === 0) return '<p>Nothing to say.</p>';
  const items = told.map(
    ({ severity, message, rule }) =>
      `<li><b>${severity === 'info' ? 'hint' : text(severity)}</b> ${text(message)} <code>${text(rule)}</code></li>`,
  );
  return `<ul>\n${items.join('\n')}\n</ul>`;
}

/** @param {{ colour: string, width: number, dashes?: string | undefined }} line */
function sample({ colour, width, dashes }) {
  const dash = dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`;
  return (
    `<svg width="64" height="16" aria-hidden="true"><path d="M0 8h64" stroke="#fff" stroke-width="${width + 3}"/>` +
    `<path d="M0 8h64" stroke="${colour}" stroke-width="${width}"${dash}/></svg>`
  );
}

/** @param {string} plain */
function text(plain) {
  const names = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
  return plain.replace(/[&<>"]/g, (sign) => names[/** @type {keyof typeof names} */ (sign)]);
}

const STYLE = `
:root { color-scheme: light dark; --paper: #fff; --ink: #222; --quiet: #555; --line: #ccc; }
@media (prefers-color-scheme: dark) { :root { --paper: #1b1b1b; --ink: #e8e8e8; --quiet: #aaa; --line: #444; } }
body { margin: 0; font: 1rem/1.5 system-ui, sans-serif; background: var(--paper); color: var(--ink); }
main { max-width: 76rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; margin: 0 0 .5rem; } h3 { font-size: 1rem; margin: .75rem 0 0; }
article { margin: 2rem 0; padding-top: 1rem; border-top: 1px solid var(--line); }
img { max-width: 100%; height: auto; display: block; }
ul { margin: 0; padding-left: 1.25rem; } p { margin: .25rem 0; }
code { color: var(--quiet); font-size: .85em; }
.legend span { white-space: nowrap; margin-left: 1rem; } .legend svg { vertical-align: middle; background: #6e6e6e; }
`;
