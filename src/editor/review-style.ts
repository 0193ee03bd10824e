import { COLOURS } from '../report/html/page.ts';

/** The page of a review in the editor's own colours; light or dark is what the editor's theme is, not the system. */
export const REVIEW_STYLE = `
:root:has(.vscode-light, .vscode-high-contrast-light) { color-scheme: light; ${COLOURS.light} }
:root:has(.vscode-dark, .vscode-high-contrast:not(.vscode-high-contrast-light)) { color-scheme: dark; ${COLOURS.dark} }
:root:has(body[class]) { --ground: var(--vscode-editor-background); --ink: var(--vscode-foreground); --sheet: color-mix(in srgb, var(--vscode-foreground) 4%, var(--vscode-editor-background)); }
:root:has(body.vscode-high-contrast) { --sheet: var(--vscode-editor-background); --rule: var(--vscode-contrastBorder); --quiet: var(--vscode-foreground); }
body { font-family: var(--vscode-font-family); padding: 0; } code { background: none; padding: 0; }
.leads { cursor: pointer; }
button { font: inherit; font-size: .85rem; color: var(--vscode-button-secondaryForeground, var(--ink)); background: var(--vscode-button-secondaryBackground, transparent); border: 1px solid var(--vscode-contrastBorder, transparent); border-radius: 2px; padding: .1rem .6rem; cursor: pointer; }
button:focus-visible, a:focus-visible, summary:focus-visible, input:focus-visible { outline: 1px solid var(--vscode-focusBorder); outline-offset: 2px; }
.name button { margin-left: auto; }
#outdated { border-left: 3px solid var(--then); padding-left: .6rem; }
`;
