import * as vscode from 'vscode';
import { insertAsWritten } from './placeList.js';
import type { Server } from './server.js';

type Step = 'next' | 'previous' | 'newRow';

/** What the key does where there is no table. */
const ELSEWHERE: Readonly<Record<Step, () => Thenable<unknown>>> = {
  next: () => vscode.commands.executeCommand('tab'),
  previous: () => vscode.commands.executeCommand('outdent'),
  newRow: () => vscode.commands.executeCommand('type', { text: '\n' }),
};

/** Goes a column on or back, or begins a new row. The server knows the table; the key works as ever without it. */
export async function tableStep(server: Server, step: Step): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (!editor) return;
  const { document } = editor;
  const { version } = document;
  const { line, character } = editor.selection.active;
  const answer = asStep(
    await server
      .request('stave/tableStep', { uri: document.uri.toString(), position: { line, character }, step })
      .catch(() => undefined),
  );
  // Somebody typed on meanwhile: the places are no longer right.
  if (document.version !== version) return;
  if (!answer) {
    await ELSEWHERE[step]();
    return;
  }
  const { format, edit, select } = answer;
  if (format.length > 0) {
    await editor.edit((change) => {
      for (const { range, newText } of format) change.replace(asRange(range), newText);
    });
  }
  if (edit?.snippet) {
    // The row may have become longer; its line has not moved.
    const { end } = document.lineAt(line).range;
    await insertAsWritten(editor, end, edit.newText);
    return;
  }
  if (edit) {
    const stops = { undoStopBefore: false, undoStopAfter: false };
    await editor.edit((change) => change.replace(asRange(edit.range), edit.newText), stops);
  }
  if (!select) return;
  const range = asRange(select);
  editor.selection = new vscode.Selection(range.start, range.end);
  editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}

/** Puts a week into the block at the cursor, behind the cursor's, or takes the cursor's week out. */
export async function changeWeeks(server: Server, change: 'insert' | 'remove'): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'stave') return;
  const { document } = editor;
  const { version } = document;
  const { line, character } = editor.selection.active;
  try {
    const edits = asEdits(
      await server.request('stave/changeWeeks', {
        uri: document.uri.toString(),
        position: { line, character },
        change,
      }),
    );
    if (document.version !== version) return;
    await editor.edit((builder) => {
      for (const { range, newText } of edits) builder.replace(asRange(range), newText);
    });
  } catch (error) {
    void vscode.window.showWarningMessage(error instanceof Error ? error.message : String(error));
  }
}

interface PlainPosition {
  readonly line: number;
  readonly character: number;
}

interface PlainRange {
  readonly start: PlainPosition;
  readonly end: PlainPosition;
}

interface PlainEdit {
  readonly range: PlainRange;
  readonly newText: string;
  readonly snippet?: boolean;
}

function asRange({ start, end }: PlainRange): vscode.Range {
  return new vscode.Range(start.line, start.character, end.line, end.character);
}

function isRange(value: unknown): value is PlainRange {
  const isPosition = (place: unknown): boolean =>
    typeof place === 'object' && place !== null && 'line' in place && 'character' in place;
  if (typeof value !== 'object' || value === null) return false;
  return 'start' in value && 'end' in value && isPosition(value.start) && isPosition(value.end);
}

function isEdit(value: unknown): value is PlainEdit {
  if (typeof value !== 'object' || value === null) return false;
  return 'range' in value && isRange(value.range) && 'newText' in value && typeof value.newText === 'string';
}

function asEdits(value: unknown): PlainEdit[] {
  return Array.isArray(value) ? value.filter(isEdit) : [];
}

function asStep(value: unknown): {
  readonly format: PlainEdit[];
  readonly edit: PlainEdit | null;
  readonly select: PlainRange | null;
} | null {
  if (typeof value !== 'object' || value === null) return null;
  const { format, edit, select } = value as { format?: unknown; edit?: unknown; select?: unknown };
  return {
    format: asEdits(format),
    edit: isEdit(edit) ? edit : null,
    select: isRange(select) ? select : null,
  };
}
