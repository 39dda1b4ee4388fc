import type { DocumentLink } from 'vscode-languageserver-types';
import { z } from 'zod';
import { say } from '../../../grammar/say.js';
import { documentLinks, placeOfBlock } from '../engine/views/links.js';
import { toRange } from './convert.js';
import { type Located, toLocation } from './located.js';
import type { Workspace } from './workspace.js';

/** What a link carries to the client and back. */
const linkData = z.object({
  uri: z.string(),
  target: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('rule'), code: z.string() }),
    z.object({ kind: z.literal('block'), program: z.string(), block: z.string() }),
  ]),
});

/** Links of a file; the address of each is made when it is followed. */
export function links({ scope, file, document }: Located): DocumentLink[] {
  return documentLinks(scope.session, file).map(({ span, target }) => ({
    range: toRange(document, span),
    tooltip:
      target.kind === 'rule' ? say('Read the page of this rule') : say('Go to the block that this is like'),
    data: { uri: document.uri, target },
  }));
}

export function linkUri(link: DocumentLink): string | undefined {
  return linkData.safeParse(link.data).data?.uri;
}

/** A link with its address: a rule's page, or the line of a block. */
export function resolveLink(
  workspace: Workspace,
  located: Located | undefined,
  link: DocumentLink,
  rulePageUri: (code: string) => string | undefined,
): DocumentLink {
  const data = linkData.safeParse(link.data).data;
  if (!located || !data) return link;
  const address = (): string | undefined => {
    if (data.target.kind === 'rule') return rulePageUri(data.target.code);
    const place = placeOfBlock(located.scope.session, data.target);
    const location = place && toLocation(workspace, located.scope, place);
    // Editors jump to a line and column behind the hash, both from 1.
    return location
      ? `${location.uri}#${location.range.start.line + 1},${location.range.start.character + 1}`
      : undefined;
  };
  const target = address();
  return target === undefined ? link : { ...link, target };
}
