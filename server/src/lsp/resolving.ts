import type { CompletionItem, InlayHint } from 'vscode-languageserver-types';
import { z } from 'zod';
import { completionHelp } from '../engine/views/completionHelp.js';
import type { CompletionKind } from '../engine/views/completionParts.js';
import { insertLoad } from '../engine/views/hintInsert.js';
import { toRange } from './convert.js';
import type { Located } from './located.js';
import { withoutMarkup } from './markup.js';
import { shownClient } from './status.js';

/** Answers that are worked out only for the one thing that a person looks at. */

const itemData = z.object({ uri: z.string(), kind: z.string(), example: z.string() });
const hintData = z.object({ uri: z.string() });

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

/** A load with the edit that writes it into its cell, where that means the same. */
export function resolveHint(located: Located | undefined, hint: InlayHint): InlayHint {
  if (!located) return hint;
  const { scope, file, document } = located;
  const edit = insertLoad(scope.session, file, document.offsetAt(hint.position), shownClient(located));
  if (!edit) return hint;
  return { ...hint, textEdits: [{ range: toRange(document, edit.span), newText: edit.newText }] };
}
