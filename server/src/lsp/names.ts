import type {
  DocumentHighlight,
  Location,
  Position,
  Range,
  WorkspaceEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver-types';
import { DocumentHighlightKind } from 'vscode-languageserver-types';
import type { NameKind } from '../engine/model.js';
import * as navigation from '../engine/views/navigation.js';
import { workspaceSymbols } from '../engine/views/symbols.js';
import { toRange } from './convert.js';
import { workspaceEdit } from './edits.js';
import { isThere, type Located, toLocation } from './located.js';
import { symbolKinds } from './reading.js';
import { Refusal } from './refusal.js';
import type { Workspace } from './workspace.js';

/** Where the name at a position is defined. Names of the built-in catalogue are defined in no file. */
export function definition(
  workspace: Workspace,
  { scope, file, document }: Located,
  position: Position,
): Location[] {
  return navigation
    .definition(scope.session, file, document.offsetAt(position))
    .map((place) => toLocation(workspace, scope, place))
    .filter(isThere);
}

export function references(
  workspace: Workspace,
  { scope, file, document }: Located,
  position: Position,
  withDefinition: boolean,
): Location[] {
  return navigation
    .references(scope.session, file, document.offsetAt(position), withDefinition)
    .map((place) => toLocation(workspace, scope, place))
    .filter(isThere);
}

export function highlights({ scope, file, document }: Located, position: Position): DocumentHighlight[] {
  return navigation.highlights(scope.session, file, document.offsetAt(position)).map(({ span, role }) => ({
    range: toRange(document, span),
    kind: role === 'definition' ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}

export function prepareRename(
  { scope, file, document }: Located,
  position: Position,
): { range: Range; placeholder: string } | null {
  const found = navigation.prepareRename(scope.session, file, document.offsetAt(position));
  return found && { range: toRange(document, found.span), placeholder: found.name };
}

/** The edits of a rename in all files. Throws a `Refusal` with the reason when the new name cannot be taken. */
export function rename(
  workspace: Workspace,
  { scope, file, document }: Located,
  position: Position,
  newName: string,
  versioned: boolean,
): WorkspaceEdit {
  const result = navigation.rename(scope.session, file, document.offsetAt(position), newName);
  if (!result.ok) throw new Refusal(result.because);
  return workspaceEdit(workspace, scope, result.edits, versioned);
}

/** Names of all folders that hold every word of the query. */
export function findSymbols(workspace: Workspace, query: string): WorkspaceSymbol[] {
  return workspace.scopes().flatMap((scope) =>
    workspaceSymbols(scope.session, query)
      .map((found) => {
        const location = toLocation(workspace, scope, found);
        return (
          location && { name: found.name, kind: kindOf(found.kind), containerName: found.container, location }
        );
      })
      .filter(isThere),
  );
}

/** Bands, machines and bars are parts of a kit and look like it. */
function kindOf(kind: NameKind) {
  return kind === 'band' || kind === 'machine' || kind === 'bar' ? symbolKinds.kit : symbolKinds[kind];
}
