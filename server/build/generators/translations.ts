import fs from 'node:fs';
import path from 'node:path';

interface Context {
  read(file: string): string;
}

/** A text that goes through `l10n.t`, in single quotes as the formatter leaves them. */
const call = /\bl10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g;

/** Every text of the editor's windows and messages, for translators: `client/l10n/bundle.l10n.json`. */
export function generate({ read }: Context): Record<string, string> {
  const texts = new Set<string>();
  for (const folder of ['client/src', 'server/src/lsp']) {
    for (const name of fs.readdirSync(folder).sort()) {
      if (!name.endsWith('.ts')) continue;
      for (const [, text] of read(path.posix.join(folder, name)).matchAll(call)) {
        if (text !== undefined) texts.add(text.replace(/\\(.)/g, '$1'));
      }
    }
  }
  const bundle = Object.fromEntries([...texts].sort().map((text) => [text, text]));
  return { 'client/l10n/bundle.l10n.json': `${JSON.stringify(bundle, null, 2)}\n` };
}
