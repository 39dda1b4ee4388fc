import type { Position, SignatureHelp } from 'vscode-languageserver-types';
import { signatureAt } from '../engine/views/signature.js';
import type { Located } from './located.js';
import { withoutMarkup } from './markup.js';

/** What may come next in a cell or a line. Clients that take no Markdown get it as a person would read it aloud. */
export function signatureHelp(
  { scope, file, document }: Located,
  position: Position,
  markdown: boolean,
): SignatureHelp | null {
  const found = signatureAt(scope.session, file, document.offsetAt(position));
  if (!found) return null;
  const documentation = (value: string) =>
    markdown ? ({ kind: 'markdown', value } as const) : withoutMarkup(value);
  return {
    signatures: [
      {
        label: found.label,
        documentation: documentation(found.help),
        parameters: found.parameters.map(({ label, help }) => ({
          label: [label[0], label[1]],
          documentation: documentation(help),
        })),
      },
    ],
    activeSignature: 0,
    // Past the last one where everything has been said: then none is marked.
    activeParameter: found.active ?? found.parameters.length,
  };
}
