/** Findings with places as people count them. */
import type { Finding, Place } from '../engine/model.js';
import type { Workspace } from './files.js';

export interface FoundPlace {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface Found extends FoundPlace {
  readonly code: string;
  readonly severity: Finding['severity'];
  readonly message: string;
  readonly related: readonly (FoundPlace & { readonly message: string })[];
  readonly fixable: boolean;
}

/** The findings of the files that were asked for, in order of file and place. */
export function foundIn(workspace: Workspace): readonly Found[] {
  return workspace.shown.flatMap((file) =>
    workspace.session.findings(file).map((finding) => ({
      ...placeOf(workspace, finding.place),
      code: finding.code,
      severity: finding.severity,
      message: finding.message,
      related: finding.related.map(({ place, message }) => ({ ...placeOf(workspace, place), message })),
      fixable: finding.fixes.length > 0,
    })),
  );
}

export function placeOf(workspace: Workspace, { file, span }: Place): FoundPlace {
  const positions = workspace.positions(file);
  const start = positions.at(span.start);
  const end = positions.at(span.end);
  return { file, line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
}
