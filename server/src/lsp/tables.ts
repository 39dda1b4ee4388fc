import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Position, Range, TextEdit } from 'vscode-languageserver-types';
import { z } from 'zod';
import { applyEdits } from '../engine/views/format.js';
import { onEnter } from '../engine/views/onEnter.js';
import { changeWeeks } from '../engine/views/refactor/weekColumns.js';
import { moveColumn, newRow, type TableMove } from '../engine/views/tableMoves.js';
import { toRange } from './convert.js';
import type { Located } from './located.js';
import { Refusal } from './refusal.js';

const position = z.object({ line: z.number().int().min(0), character: z.number().int().min(0) });
export const stepParams = z.object({
  uri: z.string(),
  position,
  step: z.enum(['next', 'previous', 'newRow']),
});
export const weeksParams = z.object({
  uri: z.string(),
  position,
  change: z.enum(['insert', 'remove']),
});

export interface TableStep {
  /** What is put right before the edit. */
  readonly format: readonly TextEdit[];
  readonly edit: { readonly range: Range; readonly newText: string; readonly snippet: boolean } | null;
  /** What to select once the edit is made. */
  readonly select: Range | null;
}

/** A step through the columns of a table; null where there is none to make. */
export function tableStep(
  { scope, file, document }: Located,
  { position: at, step }: z.infer<typeof stepParams>,
): TableStep | null {
  const offset = document.offsetAt(at);
  const move =
    step === 'newRow'
      ? newRow(scope.session, file, offset, scope.settings.table.alignOnEnter)
      : moveColumn(scope.session, file, offset, step);
  return move && asStep(document, move);
}

function asStep(document: TextDocument, { format, edit, snippet, select }: TableMove): TableStep {
  const after = edit
    ? TextDocument.create(document.uri, 'stave', 0, applyEdits(document.getText(), [edit]))
    : document;
  return {
    format: format.map(({ span, newText }) => ({ range: toRange(document, span), newText })),
    edit: edit && { range: toRange(document, edit.span), newText: edit.newText, snippet },
    select: select && toRange(after, select),
  };
}

/** A week put into a block or taken out. Throws a `Refusal` with the reason where other weeks would change. */
export function weeksEdit(
  { scope, file, document }: Located,
  { position: at, change }: z.infer<typeof weeksParams>,
): TextEdit[] {
  const result = changeWeeks({ session: scope.session, file, offset: document.offsetAt(at), change });
  if (!result.ok) throw new Refusal(result.because);
  return result.edits.map(({ span, newText }) => ({ range: toRange(document, span), newText }));
}

/** What is put right when a line was ended. */
export function formatOnEnter({ scope, document }: Located, at: Position): TextEdit[] {
  const { alignOnEnter } = scope.settings.table;
  return onEnter(document.getText(), document.offsetAt(at), { align: alignOnEnter }).map(
    ({ span, newText }) => ({ range: toRange(document, span), newText }),
  );
}
