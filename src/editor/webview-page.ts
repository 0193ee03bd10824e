import { randomBytes } from 'node:crypto';
import type { Webview } from 'vscode';
import { Uri } from 'vscode';

/**
 * The page of a webview: its own style (`media/NAME.css`) and script (`dist/NAME.js`), and no others; pictures from the
 * folders that the webview may read, nothing from elsewhere.
 * @param body without any data of a session
 */
export function webviewPage(
  webview: Webview,
  extensionFolder: Uri,
  { name, title, body }: { readonly name: string; readonly title: string; readonly body: string },
): string {
  const nonce = randomBytes(16).toString('base64');
  const address = (...path: string[]): string =>
    webview.asWebviewUri(Uri.joinPath(extensionFolder, ...path)).toString();
  const policy = `default-src 'none'; img-src ${webview.cspSource}; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${address('media', 'panel.css')}">
<link rel="stylesheet" href="${address('media', `${name}.css`)}">
<title>${title}</title>
</head>
<body class="empty">
${body}
<script nonce="${nonce}" src="${address('dist', `${name}.js`)}"></script>
</body>
</html>`;
}
