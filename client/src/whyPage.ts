import * as vscode from 'vscode';
import { escaped, panelPage, selectField } from './panelPage.js';

/** The page of the panel of reasons, still without any. */
export function whyPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const { t } = vscode.l10n;
  const body = `<header class="controls" aria-label="${escaped(t('What is shown'))}">
<div class="views" role="group" aria-label="${escaped(t('View'))}">
<button id="view-why" type="button" aria-pressed="true">${escaped(t('Why this load'))}</button>
<button id="view-if" type="button" aria-pressed="false">${escaped(t('What if'))}</button>
</div>
${selectField('client', t('Client'))}
${selectField('day', t('Day'))}
</header>
<p class="unseen" id="spoken" role="status"></p>
<main class="desk plain" id="desk" tabindex="-1">
<form class="fields" id="fields" hidden>
<p>${escaped(t('Write something else below to see what would come of it. The files stay as they are.'))}</p>
<div id="groups"></div>
<p><button id="reset" type="button">${escaped(t('As it is written'))}</button></p>
</form>
<div class="page" id="page"></div>
</main>`;
  return panelPage(webview, extension, 'why', t('Why this load'), body);
}
