import type { Scope, Workspace } from './workspace.js';

const MARK = /data-file="([^"]*)" data-start="(\d+)" data-end="(\d+)"/g;

/**
 * The panel learns numbers instead of addresses: `data-at="file:line:character:line:character"`, lines and characters
 * from 0. The addresses stay with the extension.
 */
export class Places {
  readonly uris: string[] = [];
  private readonly numbers = new Map<string, number>();
  private readonly known = new Map<string, string>();

  constructor(
    private readonly workspace: Workspace,
    private readonly scope: Scope,
  ) {}

  hide(body: string): string {
    return body.replace(MARK, (whole, file: string, start: string, end: string) => {
      const known = this.known.get(whole);
      if (known !== undefined) return known;
      const made = this.mark(unescaped(file), Number(start), Number(end));
      this.known.set(whole, made);
      return made;
    });
  }

  private mark(file: string, start: number, end: number): string {
    const document = this.workspace.document(this.scope, file);
    if (!document) return '';
    let number = this.numbers.get(file);
    if (number === undefined) {
      number = this.uris.push(document.uri) - 1;
      this.numbers.set(file, number);
    }
    const from = document.positionAt(start);
    const to = document.positionAt(end);
    return `data-at="${number}:${from.line}:${from.character}:${to.line}:${to.character}"`;
  }
}

function unescaped(text: string): string {
  return text
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, '&');
}
