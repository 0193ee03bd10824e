import { text } from './escape.ts';

/** Another page around this one, such as an editor's. Without it a page is a file that needs nothing but itself. */
export interface PageHost {
  /** Where its pictures come from, as the content security policy writes it. */
  readonly pictures: string;
  /** Behind the page's own style. */
  readonly style: string;
  /** A script that runs beside the page's own. */
  readonly script: { readonly address: string; readonly nonce: string };
}

export interface Page {
  readonly title: string;
  /** For this page alone, behind the common style. */
  readonly style: string;
  readonly script?: string;
  readonly body: string;
  readonly host?: PageHost | undefined;
}

/** What says that a file is one of ours. */
export const GENERATOR = '<meta name="generator" content="Selvedge">';

/**
 * A whole page that needs nothing but itself: it loads nothing, and runs and paints only what is known by its digest
 * (Content Security Policy Level 3, 2.3.1, hash sources), whatever a name in it may say.
 */
export async function htmlPage({ body, ...page }: Page): Promise<string> {
  const { head, tail } = await pageAround(page);
  return head + body + tail;
}

/** A page's beginning and end, for who writes what stands between them piece by piece. */
export async function pageAround(page: Omit<Page, 'body'>): Promise<{ readonly head: string; readonly tail: string }> {
  const { host } = page;
  const style = COMMON_STYLE + page.style + (host?.style ?? '');
  const scripts = [
    ...(page.script === undefined ? [] : [await hashSource(page.script)]),
    ...(host ? [`'nonce-${host.script.nonce}'`] : []),
  ];
  const policy = [
    "default-src 'none'",
    `img-src ${host?.pictures ?? 'data:'}`,
    `style-src ${await hashSource(style)}`,
    ...(scripts.length === 0 ? [] : [`script-src ${scripts.join(' ')}`]),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const head = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
${GENERATOR}
<title>${text(page.title)}</title>
<style>${style}</style>
</head>
<body>
`;
  const script = page.script === undefined ? '' : `<script>${page.script}</script>\n`;
  const hostScript = host ? `<script nonce="${host.script.nonce}" src="${text(host.script.address)}"></script>\n` : '';
  return { head, tail: `${script}${hostScript}</body>\n</html>\n` };
}

async function hashSource(content: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(content));
  return `'sha256-${Buffer.from(digest).toString('base64')}'`;
}

/** Pictures are looked at on a neutral ground; the two line colours are told apart with any kind of colour vision. */
export const COLOURS = {
  light: `--ground: #e9e9e7; --sheet: #f8f8f7; --ink: #1d1e20; --quiet: #55585c; --rule: #c9cac8;
  --error: #9c1c1c; --warning: #7a4b00; --good: #1c6136; --then: #c24e00; --now: #0a63a8; --figure: #8b8f94;`,
  dark: `--ground: #1a1b1d; --sheet: #242628; --ink: #e7e7e4; --quiet: #a9adb2; --rule: #3d4043;
  --error: #ff9d94; --warning: #f0b860; --good: #86d3a0; --then: #ff9a5c; --now: #6fb7ee; --figure: #83888e;`,
} as const;

const COMMON_STYLE = `
:root { color-scheme: light dark; ${COLOURS.light} }
@media (prefers-color-scheme: dark) { :root { ${COLOURS.dark} } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--ground); color: var(--ink); font: 0.95rem/1.45 system-ui, sans-serif; }
main { max-width: 84rem; margin: 0 auto; padding: 1.5rem 1.25rem 4rem; }
h1 { font-size: 1.45rem; margin: 0 0 .25rem; font-weight: 600; }
h2 { font-size: 1.05rem; margin: 0; font-weight: 600; overflow-wrap: anywhere; }
h3 { font-size: .8rem; margin: .7rem 0 .15rem; font-weight: 600; color: var(--quiet); }
p { margin: .25rem 0; } ul { margin: 0; padding-left: 1.1rem; } li { margin: .1rem 0; overflow-wrap: anywhere; }
code { font-size: .85em; color: var(--quiet); overflow-wrap: anywhere; } a { color: inherit; }
.quiet { color: var(--quiet); } .error { color: var(--error); font-weight: 600; } .warning { color: var(--warning); font-weight: 600; }
.good { color: var(--good); font-weight: 600; }
img, svg { display: block; max-width: 100%; height: auto; }
@media print { body { background: #fff; color: #000; font-size: 9pt; } main { max-width: none; padding: 0; } article { break-inside: avoid; } .screen { display: none; } }
`;
