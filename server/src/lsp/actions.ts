import { TextDocument } from 'vscode-languageserver-textdocument';
import type { CodeAction, CodeActionContext, Command, Range } from 'vscode-languageserver-types';
import { CodeActionKind } from 'vscode-languageserver-types';
import type { Span } from '../../../grammar/index.js';
import { say } from '../../../grammar/say.js';
import { applyEdits } from '../engine/views/format.js';
import { type Action, quickFixes, safeFixes } from '../engine/views/quickFixes.js';
import { toRange, toSpan } from './convert.js';
import { workspaceEdit } from './edits.js';
import type { Located } from './located.js';
import { offered } from './offers.js';
import type { Workspace } from './workspace.js';

export const fixAllKind = `${CodeActionKind.SourceFixAll}.stave`;

export interface ActionOptions {
  readonly versioned: boolean;
  /** The client's command that selects a piece of a file; undefined where it has none. */
  readonly selectCommand: string | undefined;
  /** The client's command that shows a list of places; undefined where it has none. */
  readonly listCommand: string | undefined;
}

/** What can be done about the findings in a range, and the safe repairs of the whole file where those are asked for. */
export function codeActions(
  workspace: Workspace,
  located: Located,
  range: Range,
  context: CodeActionContext,
  options: ActionOptions,
): CodeAction[] {
  const { scope, file, document } = located;
  const actions: CodeAction[] = [];
  if (isWanted(context, CodeActionKind.QuickFix)) {
    for (const action of quickFixes(scope.session, file, toSpan(document, range))) {
      const select = selection(workspace, located, action, options.selectCommand);
      actions.push({
        title: action.title,
        kind: CodeActionKind.QuickFix,
        diagnostics: context.diagnostics.filter(
          ({ code, range: at }) =>
            code === action.finding.code && document.offsetAt(at.start) === action.finding.place.span.start,
        ),
        isPreferred: action.safe,
        edit: workspaceEdit(workspace, scope, action.edits, options.versioned),
        ...(select && { command: select }),
      });
    }
  }
  if (isWanted(context, CodeActionKind.RefactorRewrite))
    actions.push(...offered(workspace, located, range, context, options));
  // Only when asked for by name: it repairs more than the lines in view.
  if (context.only?.some((kind) => isPart(fixAllKind, kind))) {
    const edits = safeFixes(scope.session, file);
    if (edits.length > 0) {
      actions.push({
        title: say('Take every safe repair in this file'),
        kind: fixAllKind,
        edit: workspaceEdit(workspace, scope, edits, options.versioned),
      });
    }
  }
  return actions;
}

function isWanted(context: CodeActionContext, kind: string): boolean {
  return context.only === undefined || context.only.some((wanted) => isPart(kind, wanted));
}

/** Kinds are a tree written with dots: `source.fixAll.stave` is a part of `source.fixAll`. */
function isPart(kind: string, of: string): boolean {
  return kind === of || kind.startsWith(`${of}.`);
}

/** The command that selects the words to replace, in the text as it is after the edits. */
function selection(
  workspace: Workspace,
  { scope }: Located,
  { select, edits }: Action,
  command: string | undefined,
): Command | undefined {
  const target = select && workspace.document(scope, select.file);
  if (!select || !target || command === undefined) return undefined;
  const own = edits.filter(({ file }) => file === select.file);
  const after = TextDocument.create(target.uri, 'stave', 0, applyEdits(target.getText(), own));
  const span: Span = select.span;
  return { title: say('Select'), command, arguments: [target.uri, toRange(after, span)] };
}
