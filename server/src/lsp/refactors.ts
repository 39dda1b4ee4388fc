import { TextDocument } from 'vscode-languageserver-textdocument';
import type {
  CodeAction,
  CodeActionContext,
  CreateFile,
  Range,
  TextDocumentEdit,
  WorkspaceEdit,
} from 'vscode-languageserver-types';
import { say } from '../../../grammar/say.js';
import { applyEdits } from '../engine/views/format.js';
import { refactorings } from '../engine/views/refactor/index.js';
import type { RefactorContext, Rewrite } from '../engine/views/refactor/refactoring.js';
import { swapSnippet } from '../engine/views/refactor/swapMovement.js';
import { toRange } from './convert.js';
import { workspaceEdit } from './edits.js';
import type { Located } from './located.js';
import { shownClient } from './status.js';
import type { Workspace } from './workspace.js';

export interface RefactorOptions {
  readonly versioned: boolean;
  /** The client takes edits that make new files. */
  readonly createsFiles: boolean;
  /** The client shows actions that cannot be taken, with the reason. */
  readonly showsDisabled: boolean;
  readonly selectCommand: string | undefined;
  /** The client's command that writes a snippet at a place of a file; undefined where it has none. */
  readonly snippetCommand: string | undefined;
}

export const refactorKinds = ['refactor.rewrite', 'refactor.extract', 'refactor.move'] as const;
/** Sent by an editor with every move of the cursor, to know whether to show its lamp. */
const AUTOMATIC = 2;

/**
 * The refactorings at a position, each tried before it is shown. As that takes a while in a large practice, an editor
 * gets them only when the coach asks.
 */
export function refactorActions(
  workspace: Workspace,
  located: Located,
  range: Range,
  context: CodeActionContext,
  options: RefactorOptions,
): CodeAction[] {
  const isWanted = (kind: string): boolean =>
    context.only === undefined
      ? context.triggerKind !== AUTOMATIC
      : context.only.some((wanted) => kind === wanted || kind.startsWith(`${wanted}.`));
  if (!refactorKinds.some(isWanted)) return [];
  const { scope, file, document } = located;
  const asked: RefactorContext = {
    session: scope.session,
    file,
    offset: document.offsetAt(range.start),
    clientKey: shownClient(located),
    today: scope.session.today(),
  };
  const actions = refactorings(asked).flatMap(({ title, kind, build }): CodeAction[] => {
    if (!isWanted(kind)) return [];
    const result = build();
    if (!result.ok)
      return options.showsDisabled ? [{ title, kind, disabled: { reason: result.because } }] : [];
    if (result.newFiles.length > 0 && !options.createsFiles) return [];
    const edit = rewriteEdit(workspace, located, result, options);
    const command = selectAfter(workspace, located, result, options.selectCommand);
    return [{ title, kind, edit, ...(command && { command }) }];
  });
  return isWanted('refactor.rewrite')
    ? [...actions, ...snippetAction(workspace, located, asked, options.snippetCommand)]
    : actions;
}

function rewriteEdit(
  workspace: Workspace,
  { scope }: Located,
  { edits, newFiles }: Rewrite,
  { versioned }: RefactorOptions,
): WorkspaceEdit {
  const edit = workspaceEdit(workspace, scope, edits, versioned);
  if (newFiles.length === 0) return edit;
  const start = { line: 0, character: 0 };
  const made = newFiles.flatMap(({ file, text }): (CreateFile | TextDocumentEdit)[] => [
    { kind: 'create', uri: file, options: { ignoreIfExists: false } },
    { textDocument: { uri: file, version: null }, edits: [{ range: { start, end: start }, newText: text }] },
  ]);
  const changed =
    edit.documentChanges ??
    Object.entries(edit.changes ?? {}).map(([uri, own]) => ({
      textDocument: { uri, version: null },
      edits: own,
    }));
  return { documentChanges: [...made, ...changed] };
}

function selectAfter(workspace: Workspace, { scope }: Located, { select, edits }: Rewrite, command?: string) {
  const target = select && workspace.document(scope, select.file);
  if (!select || !target || command === undefined) return undefined;
  const own = edits.filter(({ file }) => file === select.file);
  const after = TextDocument.create(target.uri, 'stave', 0, applyEdits(target.getText(), own));
  return { title: say('Select'), command, arguments: [target.uri, toRange(after, select.span)] };
}

/** A line with places to fill in, for clients that can write one. */
function snippetAction(
  workspace: Workspace,
  { scope }: Located,
  asked: RefactorContext,
  command: string | undefined,
): CodeAction[] {
  const found = command === undefined ? null : swapSnippet(asked);
  const target = found && workspace.document(scope, found.file);
  if (!found || !target || command === undefined) return [];
  const { title, offset, snippet } = found;
  const at = target.positionAt(offset);
  return [
    { title, kind: 'refactor.rewrite', command: { title, command, arguments: [target.uri, at, snippet] } },
  ];
}
