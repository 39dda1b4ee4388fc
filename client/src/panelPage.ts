import * as vscode from 'vscode';

/** A word that nobody can guess, different for each page. */
function nonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
/** Text inside HTML or an attribute. */
export const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (character) => ENTITIES[character] ?? '');

/** The language of what the panels say: that of the editor where there are texts in it, else English. */
function spokenLanguage(): string {
  const language = vscode.env.language.split(/[-_]/)[0]?.toLowerCase() ?? '';
  return ['de', 'es'].includes(language) ? language : 'en';
}

/** A list to choose from, with its label above it. */
export const selectField = (id: string, title: string, more = '', options = ''): string =>
  `<div class="field" id="for-${id}"><label for="${id}">${escaped(title)}</label><select id="${id}"${more}>${options}</select></div>`;

/**
 * The page of a panel, still without content: only the script and the style sheet of the extension may act in it.
 * `panel` says which part of the script runs.
 */
export function panelPage(
  webview: vscode.Webview,
  extension: vscode.Uri,
  panel: 'preview' | 'why',
  title: string,
  body: string,
): string {
  const word = nonce();
  const dist = (file: string) =>
    escaped(webview.asWebviewUri(vscode.Uri.joinPath(extension, 'dist', file)).toString());
  return `<!doctype html>
<html lang="${spokenLanguage()}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${word}'; style-src 'nonce-${word}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<link rel="stylesheet" nonce="${word}" href="${dist('preview.css')}">
</head>
<body data-panel="${panel}">
${body}
<script nonce="${word}" src="${dist('preview.js')}"></script>
</body>
</html>
`;
}
