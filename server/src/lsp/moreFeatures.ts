import type {
  CodeLens,
  CompletionItem,
  DocumentLink,
  DocumentOnTypeFormattingParams,
  InlayHint,
  SignatureHelp,
  TextDocumentPositionParams,
} from 'vscode-languageserver';
import type * as lsp from 'vscode-languageserver-types';
import { say } from '../../../grammar/say.js';
import type { ClientAbilities } from './clientAbilities.js';
import { codeLenses, type LensCommands, lensUri, resolveLens } from './lenses.js';
import { links, linkUri, resolveLink } from './links.js';
import type { Located } from './located.js';
import type { Why } from './messages.js';
import { Refusal } from './refusal.js';
import { hintUri, itemUri, resolveHint, resolveItem } from './resolving.js';
import { signatureHelp } from './signature.js';
import { formatOnEnter, stepParams, type TableStep, tableStep, weeksEdit, weeksParams } from './tables.js';
import { readWhyParams, whyOf } from './why.js';
import type { Workspace } from './workspace.js';

interface InDocument {
  readonly textDocument: lsp.TextDocumentIdentifier;
}

export interface MoreHost {
  readonly workspace: Workspace;
  readonly abilities: ClientAbilities;
  readonly lensCommands: LensCommands;
  readonly rulePageUri: (code: string) => string | undefined;
  readonly located: (uri: string) => Promise<Located | undefined>;
}

/** Help while writing, lenses, links, and everything that is worked out only when somebody looks at it. */
export function moreFeatures({ workspace, abilities, lensCommands, rulePageUri, located }: MoreHost) {
  async function inFile<Answer>(
    { textDocument }: InDocument,
    fallback: Answer,
    answer: (found: Located) => Answer,
  ): Promise<Answer> {
    const found = await located(textDocument.uri);
    return found ? answer(found) : fallback;
  }
  const of = async (uri: string | undefined): Promise<Located | undefined> =>
    uri === undefined ? undefined : located(uri);

  return {
    signature: (params: TextDocumentPositionParams) =>
      inFile<SignatureHelp | null>(params, null, (found) =>
        signatureHelp(found, params.position, abilities.signatureMarkdown),
      ),
    lenses: (params: InDocument) => inFile<CodeLens[]>(params, [], codeLenses),
    resolveLens: async (lens: CodeLens) =>
      resolveLens(workspace, await of(lensUri(lens)), lens, lensCommands),
    links: (params: InDocument) => inFile<DocumentLink[]>(params, [], links),
    resolveLink: async (link: DocumentLink) =>
      resolveLink(workspace, await of(linkUri(link)), link, rulePageUri),
    resolveItem: async (item: CompletionItem) =>
      resolveItem(await of(itemUri(item)), item, abilities.itemMarkdown),
    resolveHint: async (hint: InlayHint) => resolveHint(await of(hintUri(hint)), hint),
    formatOnType: (params: DocumentOnTypeFormattingParams) =>
      inFile<lsp.TextEdit[]>(params, [], (found) => formatOnEnter(found, params.position)),
    async tableStep(params: unknown): Promise<TableStep | null> {
      const asked = stepParams.safeParse(params).data;
      const found = await of(asked?.uri);
      return asked && found ? tableStep(found, asked) : null;
    },
    async changeWeeks(params: unknown): Promise<lsp.TextEdit[]> {
      const asked = weeksParams.safeParse(params).data;
      const found = await of(asked?.uri);
      if (!asked || !found) throw new Refusal(say('This file is not open, and lies in no open folder.'));
      return weeksEdit(found, asked);
    },
    /** The page of reasons for a place in a file; null for a file that is not open and lies in no open folder. */
    async why(params: unknown): Promise<Why | null> {
      const asked = readWhyParams(params);
      const found = await of(asked?.uri);
      return asked && found ? whyOf(workspace, found, asked) : null;
    },
  };
}

export type MoreFeatures = ReturnType<typeof moreFeatures>;
