import type { Block, ClientPlan, ResolvedCell, Session } from '../../model.js';
import type { BlockPlan, RuleContext } from '../../ruleForm.js';
import { blockSessions } from './cells.js';

/** What was read from the sessions of a block, by what has read it: for each session with something, its number. */
export type BlockContent = Map<unknown, { readonly context: RuleContext; readonly read: readonly Read[] }>;

interface Read {
  readonly index: number;
  readonly value: unknown;
}

/** One block of a plan. `content` stays the same object as long as the block says the same, wherever it stands. */
export interface PlanPart extends BlockPlan {
  readonly block: Block;
  readonly content: BlockContent;
}

const partsByPlan = new WeakMap<ClientPlan, readonly PlanPart[]>();

/** Tells which blocks of a plan say what they said before. */
export function tellParts(plan: ClientPlan, parts: readonly PlanPart[]): void {
  partsByPlan.set(plan, parts);
}

/** The blocks of a plan, in order of their first session. */
export function partsOf(plan: ClientPlan): readonly PlanPart[] {
  let parts = partsByPlan.get(plan);
  if (!parts) {
    const { client } = plan;
    parts = [...blockSessions(plan)].map(([block, sessions]) => ({
      client,
      block,
      sessions,
      content: new Map(),
    }));
    partsByPlan.set(plan, parts);
  }
  return parts;
}

/** A session, and what was read from it. */
export interface OfSession<Value> {
  readonly session: Session;
  readonly value: Value;
}

/**
 * Reads something small from each session of a plan, for rules that look at all of it: after a keystroke the sessions
 * of one block are read again, and the cells of the others are not even worked out. What is read may hold numbers of
 * cells and groups, words, and parts of the client and of movements, but no cells, no rows and no places, as these move.
 * Sessions with null are left out. The rest comes in order of the plan.
 */
export function perSession<Value>(
  read: (session: Session, context: RuleContext) => Value | null,
): (plan: ClientPlan, context: RuleContext) => readonly OfSession<Value>[] {
  // Several rules ask for the same, and some for each of their findings.
  const kept = new WeakMap<ClientPlan, { context: RuleContext; all: readonly OfSession<Value>[] }>();
  return (plan, context) => {
    const before = kept.get(plan);
    if (before?.context === context) return before.all;
    const all = inOrder(plan, readParts(plan, context, read));
    kept.set(plan, { context, all });
    return all;
  };
}

function readParts<Value>(
  plan: ClientPlan,
  context: RuleContext,
  read: (session: Session, context: RuleContext) => Value | null,
): OfSession<Value>[] {
  const found: OfSession<Value>[] = [];
  for (const { sessions, content } of partsOf(plan)) {
    let kept = content.get(read);
    if (kept?.context !== context) {
      kept = { context, read: readAll(sessions, (session) => read(session, context)) };
      content.set(read, kept);
    }
    for (const { index, value } of kept.read)
      found.push({ session: sessions[index] as Session, value: value as Value });
  }
  return found;
}

function readAll(sessions: readonly Session[], read: (session: Session) => unknown): readonly Read[] {
  const found: Read[] = [];
  for (const [index, session] of sessions.entries()) {
    const value = read(session);
    if (value !== null) found.push({ index, value });
  }
  return found;
}

/** Blocks that run beside one another are mixed as their sessions are. */
function inOrder<Value>(plan: ClientPlan, found: OfSession<Value>[]): readonly OfSession<Value>[] {
  const mixed = found.some(({ session }, at) => session.date <= (found[at - 1]?.session.date ?? ''));
  if (!mixed) return found;
  const order = new Map(plan.sessions.map((session, index) => [session, index]));
  return found.sort((a, b) => (order.get(a.session) ?? 0) - (order.get(b.session) ?? 0));
}

/** What is read from the cells that have it; null for none. Most sessions have none, so nothing is made for them. */
export function picked<Value>(
  cells: readonly ResolvedCell[],
  read: (cell: ResolvedCell, number: number) => Value | null,
): readonly Value[] | null {
  let found: Value[] | null = null;
  for (let number = 0; number < cells.length; number += 1) {
    const value = read(cells[number] as ResolvedCell, number);
    if (value === null) continue;
    found ??= [];
    found.push(value);
  }
  return found;
}
