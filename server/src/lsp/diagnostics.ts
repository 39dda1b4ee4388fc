import type { Diagnostic } from 'vscode-languageserver-types';
import { DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver-types';
import type { Finding } from '../engine/model.js';
import type { ClientAbilities } from './clientAbilities.js';
import { toRange } from './convert.js';
import { isThere, type Located, toLocation } from './located.js';
import type { Workspace } from './workspace.js';

const severities = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
} as const;

/** Findings about lines that have no effect: drawn faded where the client can. */
const unnecessary = new Set(['unused-allow']);

/** Everything found in one file, as the protocol's diagnostics, in order of place. */
export function diagnosticsOf(
  workspace: Workspace,
  { scope, file, document }: Located,
  abilities: ClientAbilities,
  rulePageUri: (code: string) => string | undefined,
): Diagnostic[] {
  const toDiagnostic = (finding: Finding): Diagnostic => {
    const page = abilities.codeDescription ? rulePageUri(finding.code) : undefined;
    const related = abilities.relatedInformation
      ? finding.related
          .map(({ place, message }) => {
            const location = toLocation(workspace, scope, place);
            return location && { location, message };
          })
          .filter(isThere)
      : [];
    return {
      range: toRange(document, finding.place.span),
      severity: severities[finding.severity],
      code: finding.code,
      source: 'stave',
      message: finding.message,
      ...(page !== undefined && { codeDescription: { href: page } }),
      ...(related.length > 0 && { relatedInformation: related }),
      ...(unnecessary.has(finding.code) && { tags: [DiagnosticTag.Unnecessary] }),
    };
  };
  return scope.session.findings(file).map(toDiagnostic);
}
