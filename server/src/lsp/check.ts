import { z } from 'zod';
import { conciseLine } from '../engine/views/concise.js';
import type { Scope, Workspace } from './workspace.js';

const checkParams = z.object({ folder: z.string() });

export interface CheckAnswer {
  /** Every finding of the folder, in the words of `stave check --format concise`; files by their way from the folder. */
  readonly lines: readonly string[];
  readonly files: number;
}

/** Reads what is asked for; undefined when it is not of that shape. */
export function readCheckParams(value: unknown): { readonly folder: string } | undefined {
  return checkParams.safeParse(value).data;
}

/** Everything found in the files of a folder, open or not; unsaved text counts. */
export function checkFolder(workspace: Workspace, scope: Scope): CheckAnswer {
  const files = [...scope.session.files()].sort();
  const lines = files.flatMap((file) => {
    const document = workspace.document(scope, file);
    if (!document) return [];
    return scope.session.findings(file).map(({ place, severity, code, message }) => {
      const { line, character } = document.positionAt(place.span.start);
      return conciseLine({
        file: wayFrom(scope.uri, file),
        line: line + 1,
        column: character + 1,
        severity,
        code,
        message,
      });
    });
  });
  return { lines, files: files.length };
}

function wayFrom(folder: string, file: string): string {
  const way = file.slice(folder.replace(/\/$/, '').length + 1);
  try {
    return decodeURIComponent(way);
  } catch {
    return way;
  }
}
