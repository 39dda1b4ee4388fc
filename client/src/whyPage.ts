import * as vscode from 'vscode';
import { escaped, panelPage, selectField } from './panelPage.js';

/** The page of the panel of reasons, still without any. */
export function whyPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const body = `<header class="controls" aria-label="${escaped(vscode.l10n.t('What is shown'))}">
<div class="views" role="group" aria-label="${escaped(vscode.l10n.t('View'))}">
<button id="view-why" type="button" aria-pressed="true">${escaped(vscode.l10n.t('Why this load'))}</button>
<button id="view-if" type="button" aria-pressed="false">${escaped(vscode.l10n.t('What if'))}</button>
</div>
${selectField('client', vscode.l10n.t('Client'))}
${selectField('day', vscode.l10n.t('Day'))}
</header>
<p class="unseen" id="spoken" role="status"></p>
<main class="desk plain" id="desk" tabindex="-1">
<form class="fields" id="fields" hidden>
<p>${escaped(vscode.l10n.t('Write something else below to see what would come of it. The files stay as they are.'))}</p>
<div id="groups"></div>
<p><button id="reset" type="button">${escaped(vscode.l10n.t('As it is written'))}</button></p>
</form>
<div class="page" id="page"></div>
</main>`;
  return panelPage(webview, extension, 'why', vscode.l10n.t('Why this load'), body);
}
