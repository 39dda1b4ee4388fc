import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Location } from 'vscode-languageserver-types';
import type { Place } from '../engine/model.js';
import { toRange } from './convert.js';
import type { Scope, Workspace } from './workspace.js';

/** A file that a request asks about, with everything needed to answer. */
export interface Located {
  readonly scope: Scope;
  /** The key under which the session knows the file. */
  readonly file: string;
  readonly document: TextDocument;
}

/** A place of the engine as the protocol's location. Undefined for a file that is gone. */
export function toLocation(workspace: Workspace, scope: Scope, place: Place): Location | undefined {
  const document = workspace.document(scope, place.file);
  return document && { uri: document.uri, range: toRange(document, place.span) };
}

export function isThere<Value>(value: Value | undefined | null): value is Value {
  return value !== undefined && value !== null;
}
