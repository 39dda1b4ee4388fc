import type { AllowNode, BlockNode, ProgramNode, Span } from '../../../../grammar/index.js';
import type { Place } from '../model.js';
import { RULES } from '../rules/index.js';
import type { EngineSession } from '../session.js';

/** Where a link leads. Plain, so that it can travel to an editor and back before its address is asked for. */
export type LinkTarget =
  | { readonly kind: 'rule'; readonly code: string }
  | { readonly kind: 'block'; readonly program: string; readonly block: string };

export interface Link {
  readonly span: Span;
  readonly target: LinkTarget;
}

const withPage: ReadonlySet<string> = new Set(RULES.map(({ code }) => code));

/** The codes of `allow` lines, which lead to the rule's page, and the blocks behind `like`. */
export function documentLinks(session: EngineSession, file: string): Link[] {
  const tree = session.tree(file)?.value;
  if (!tree) return [];
  const links: Link[] = [];
  for (const { code } of allowsIn(tree.sections))
    if (withPage.has(code.value)) links.push({ span: code.span, target: { kind: 'rule', code: code.value } });
  for (const section of tree.sections) {
    if (section.kind !== 'program') continue;
    for (const block of section.blocks) {
      const link = likeLink(session, section, block);
      if (link) links.push(link);
    }
  }
  return links.sort((a, b) => a.span.start - b.span.start);
}

function likeLink(session: EngineSession, owner: ProgramNode, { like }: BlockNode): Link | null {
  if (!like) return null;
  const program = like.program?.key ?? owner.name.key;
  const target = { kind: 'block', program, block: like.block.key } as const;
  const span = { start: (like.program ?? like.block).span.start, end: like.block.span.end };
  return placeOfBlock(session, target) ? { span, target } : null;
}

/** Where the block of a link is written; null when it is gone. */
export function placeOfBlock(
  session: EngineSession,
  { program, block }: Extract<LinkTarget, { kind: 'block' }>,
): Place | null {
  const found = session.world().programs.get(program);
  const node = found?.node.blocks.find(({ name }) => name.key === block);
  return found && node ? { file: found.place.file, span: node.name.span } : null;
}

function allowsIn(value: unknown, found: AllowNode[] = []): AllowNode[] {
  if (Array.isArray(value)) for (const entry of value) allowsIn(entry, found);
  else if (typeof value === 'object' && value !== null) {
    const { kind } = value as { kind?: unknown };
    if (kind === 'allow' && 'code' in value) found.push(value as AllowNode);
    else for (const entry of Object.values(value)) if (typeof entry === 'object') allowsIn(entry, found);
  }
  return found;
}
