import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Webview } from 'vscode';
import { Uri } from 'vscode';

/**
 * The page of a webview: its own style (`media/NAME.css`) and script (`dist/NAME.js`), and no others; pictures from the
 * folders that the webview may read, nothing from elsewhere. Style and script stand in the page itself: each file that a
 * webview asks for takes a way through the editor and back, and the first picture waits for it.
 * @param body without any data of a session
 */
export function webviewPage(
  webview: Webview,
  extensionFolder: Uri,
  { name, title, body }: { readonly name: string; readonly title: string; readonly body: string },
): string {
  const nonce = randomBytes(16).toString('base64');
  const read = (...path: string[]): string => readFileSync(Uri.joinPath(extensionFolder, ...path).fsPath, 'utf8');
  const style = ['panel.css', `${name}.css`].map((file) => read('media', file)).join('\n');
  // What would end the element stands in strings alone, where it can be written so.
  const script = read('dist', `${name}.js`).replaceAll(/<(?=\/script|!--)/gi, '\\x3c');
  const policy = [
    "default-src 'none'",
    `img-src ${webview.cspSource} data:`,
    `style-src ${webview.cspSource} 'nonce-${nonce}'`,
    `script-src 'nonce-${nonce}'`,
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<style nonce="${nonce}">${style}</style>
<title>${title}</title>
</head>
<body class="empty">
${body}
<script nonce="${nonce}">${script}</script>
</body>
</html>`;
}
