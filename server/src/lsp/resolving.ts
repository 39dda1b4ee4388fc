import type { CompletionItem, InlayHint } from 'vscode-languageserver-types';
import { z } from 'zod';
import { completionHelp } from '../engine/views/completionHelp.js';
import type { CompletionKind } from '../engine/views/completionParts.js';
import { insertLoad } from '../engine/views/hintInsert.js';
import { toRange } from './convert.js';
import type { Located } from './located.js';
import { withoutMarkup } from './markup.js';
import { hintsIn } from './reading.js';
import { shownClient } from './status.js';

/** Answers that are worked out only for the one thing that a person looks at. */

const itemData = z.object({ uri: z.string(), kind: z.string(), example: z.string() });
const hintData = z.object({ uri: z.string(), isLoad: z.boolean() });

export function itemUri(item: CompletionItem): string | undefined {
  return itemData.safeParse(item.data).data?.uri;
}

export function hintUri(hint: InlayHint): string | undefined {
  return hintData.safeParse(hint.data).data?.uri;
}

/** An offered word with what there is to say about it. */
export function resolveItem(
  located: Located | undefined,
  item: CompletionItem,
  markdown: boolean,
): CompletionItem {
  const data = itemData.safeParse(item.data).data;
  if (!located || !data) return item;
  const help = completionHelp(located.scope.session, located.file, {
    kind: data.kind as CompletionKind,
    label: item.label,
    example: data.example,
  });
  if (help === null) return item;
  const plain = data.example !== '' && !markdown ? data.example : withoutMarkup(help);
  return { ...item, documentation: markdown ? { kind: 'markdown', value: help } : plain };
}

/** A hint with its tooltip, and a load with the edit that writes it into its cell, where that means the same. */
export function resolveHint(located: Located | undefined, hint: InlayHint): InlayHint {
  const data = hintData.safeParse(hint.data).data;
  if (!located || !data) return hint;
  const { scope, file, document } = located;
  const offset = document.offsetAt(hint.position);
  const tooltip = hint.tooltip ?? tooltipAt(located, offset);
  const edit = data.isLoad ? insertLoad(scope.session, file, offset, shownClient(located)) : null;
  return {
    ...hint,
    ...(tooltip !== undefined && { tooltip }),
    ...(edit && { textEdits: [{ range: toRange(document, edit.span), newText: edit.newText }] }),
  };
}

/** All hints of a cell have the same one. */
function tooltipAt(located: Located, offset: number): string | undefined {
  const found = hintsIn(located, { start: offset, end: offset });
  return found.find((each) => each.offset === offset && each.tooltip)?.tooltip?.();
}
