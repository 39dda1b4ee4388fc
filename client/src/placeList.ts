import * as vscode from 'vscode';
import { select } from './select.js';

interface Place {
  readonly heading: string;
  readonly label: string;
  readonly detail: string;
  readonly uri: string;
  readonly range: unknown;
}

interface PlaceItem extends vscode.QuickPickItem {
  readonly place?: Place;
}

/** What stands behind a lens: places under their headings, to go to one of them. */
export async function showPlaces(title: unknown, places: unknown): Promise<void> {
  const list = Array.isArray(places) ? places.filter(isPlace) : [];
  if (list.length === 0) return;
  const headings = [...new Set(list.map(({ heading }) => heading))];
  const items = headings.flatMap((heading): PlaceItem[] => [
    { label: heading, kind: vscode.QuickPickItemKind.Separator },
    ...list
      .filter((place) => place.heading === heading)
      .map((place) => ({ label: place.label, description: place.detail, place })),
  ]);
  const picked = await vscode.window.showQuickPick(items, {
    title: typeof title === 'string' ? title : '',
    placeHolder: vscode.l10n.t('Go to …'),
    matchOnDescription: true,
  });
  if (picked?.place) await select(picked.place.uri, picked.place.range);
}

function isPlace(value: unknown): value is Place {
  if (typeof value !== 'object' || value === null) return false;
  const texts = value as Record<string, unknown>;
  return ['heading', 'label', 'detail', 'uri'].every((name) => typeof texts[name] === 'string');
}

/** Writes a snippet at a place of a file and lets the coach fill it in. */
export async function insertSnippet(uri: unknown, position: unknown, snippet: unknown): Promise<void> {
  if (typeof uri !== 'string' || typeof snippet !== 'string') return;
  if (typeof position !== 'object' || position === null) return;
  const { line, character } = position as { line?: unknown; character?: unknown };
  if (typeof line !== 'number' || typeof character !== 'number') return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const editor = await vscode.window.showTextDocument(document);
  await insertAsWritten(editor, new vscode.Position(line, character), snippet);
}

/**
 * Writes a snippet, which may begin with a line break and an indentation. The editor would add its own indentation to
 * a line that a snippet opens, so that the line is opened first.
 */
export async function insertAsWritten(
  editor: vscode.TextEditor,
  place: vscode.Position,
  snippet: string,
): Promise<void> {
  const head = /^(?:\r\n|\n|\r)([ \t]*)/.exec(snippet);
  if (!head) {
    await editor.insertSnippet(new vscode.SnippetString(snippet), place);
    return;
  }
  await editor.edit((edit) => edit.insert(place, head[0]), { undoStopBefore: true, undoStopAfter: false });
  const opened = new vscode.Position(place.line + 1, (head[1] ?? '').length);
  await editor.insertSnippet(new vscode.SnippetString(snippet.slice(head[0].length)), opened, {
    undoStopBefore: false,
    undoStopAfter: true,
  });
}
