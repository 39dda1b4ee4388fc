import * as vscode from 'vscode';
import { escaped, panelPage, selectField } from './panelPage.js';

const ZOOMS = [50, 75, 90, 100, 125, 150, 200];

/** The page of the panel, still without a document: only its own script and style sheet may act in it. */
export function previewPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const say = escaped;
  const field = selectField;
  const zooms = [
    `<option value="0">${say(vscode.l10n.t('Fit'))}</option>`,
    ...ZOOMS.map((zoom) => `<option value="${zoom}">${zoom}%</option>`),
  ].join('');
  const next = ` data-next="${say(vscode.l10n.t('The next one'))}"`;
  const body = `<header class="controls" aria-label="${say(vscode.l10n.t('What is shown'))}">
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
<div id="sheet" hidden></div>
</section>`;
  return panelPage(webview, extension, 'preview', vscode.l10n.t('Preview'), body);
}
