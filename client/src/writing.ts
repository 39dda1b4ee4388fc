import * as vscode from 'vscode';
import { insertSnippet, showPlaces } from './placeList.js';
import type { Server } from './server.js';
import { changeWeeks, tableStep } from './table.js';
import { followCursor } from './tableKeys.js';

/** Commands and keys for writing in tables, and what lenses and code actions of the server call. */
export function writingCommands(server: Server): vscode.Disposable {
  const command = vscode.commands.registerCommand;
  return vscode.Disposable.from(
    followCursor(),
    command('stave.nextColumn', () => tableStep(server, 'next')),
    command('stave.previousColumn', () => tableStep(server, 'previous')),
    command('stave.newRow', () => tableStep(server, 'newRow')),
    command('stave.insertWeek', () => changeWeeks(server, 'insert')),
    command('stave.removeWeek', () => changeWeeks(server, 'remove')),
    command('stave.showPlaces', showPlaces),
    command('stave.insertSnippet', insertSnippet),
  );
}
