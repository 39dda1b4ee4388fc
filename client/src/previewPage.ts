import * as vscode from 'vscode';

/** A word that nobody can guess, different for each page. */
function nonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string): string => text.replace(/[&<>"]/g, (character) => ENTITIES[character] ?? '');

const ZOOMS = [50, 75, 90, 100, 125, 150, 200];

/** The page of the panel, still without a document: only its own script and style sheet may act in it. */
export function previewPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const word = nonce();
  const dist = (file: string) =>
    webview.asWebviewUri(vscode.Uri.joinPath(extension, 'dist', file)).toString();
  const say = (text: string) => escaped(text);
  const field = (id: string, title: string, more = '', options = '') =>
    `<div class="field" id="for-${id}"><label for="${id}">${say(title)}</label><select id="${id}"${more}>${options}</select></div>`;
  const zooms = [
    `<option value="0">${say(vscode.l10n.t('Fit'))}</option>`,
    ...ZOOMS.map((zoom) => `<option value="${zoom}">${zoom}%</option>`),
  ].join('');
  const next = ` data-next="${say(vscode.l10n.t('The next one'))}"`;
  return `<!doctype html>
<html lang="${escaped(vscode.env.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${word}'; style-src 'nonce-${word}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${say(vscode.l10n.t('Preview'))}</title>
<link rel="stylesheet" nonce="${word}" href="${escaped(dist('preview.css'))}">
</head>
<body>
<header class="controls" aria-label="${say(vscode.l10n.t('What is shown'))}">
${field('kind', vscode.l10n.t('Document'))}
${field('client', vscode.l10n.t('Client'))}
${field('date', vscode.l10n.t('Day'), next)}
${field('zoom', vscode.l10n.t('Size'), '', zooms)}
<div class="check"><input type="checkbox" id="large"><label for="large">${say(vscode.l10n.t('Large print'))}</label></div>
<button id="export" type="button">${say(vscode.l10n.t('Export…'))}</button>
</header>
<p class="notice" id="notice" hidden></p>
<p class="unseen" id="spoken" role="status"></p>
<section class="desk" id="desk" aria-label="${say(
    vscode.l10n.t('The document as it is printed. Arrow keys go from cell to cell, Enter goes to the text.'),
  )}">
<section class="empty" id="empty" hidden><h1 id="empty-heading"></h1><p id="empty-text"></p></section>
<div id="sheet" lang="en" hidden></div>
</section>
<script nonce="${word}" src="${escaped(dist('preview.js'))}"></script>
</body>
</html>
`;
}
