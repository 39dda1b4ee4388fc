import type { ProgramNode } from '../../../grammar/index.js';
import type { CodedFinding, Sifted } from './findings.js';
import type { Block, BlockSource, Client, ClientPlan, Place, Program, Session } from './model.js';
import { movedBy, sayTheSame } from './moved.js';
import type { BlockPlan } from './ruleForm.js';
import { blockSessions } from './rules/shared/cells.js';
import { type BlockContent, type PlanPart, tellParts } from './rules/shared/perSession.js';

/** What was found in one block for one client, with all that it follows from. */
interface KeptBlock {
  /** Compared by what they are. */
  readonly inputs: readonly unknown[];
  /** Her sessions of the block, as text. */
  readonly calendar: string;
  readonly program: { readonly file: string; readonly node: ProgramNode };
  readonly sources: readonly BlockSource[];
  readonly found: Sifted;
  readonly content: BlockContent;
}

/**
 * What the rules on blocks found, by client. A keystroke changes one block: what was found in the others is taken over,
 * moved with their text.
 */
export class BlockFindings {
  readonly #kept = new Map<string, ReadonlyMap<string, KeptBlock>>();

  clear(): void {
    this.#kept.clear();
  }

  delete(clientKey: string): void {
    this.#kept.delete(clientKey);
  }

  keys(): Iterable<string> {
    return this.#kept.keys();
  }

  /** Lets go of what rules on whole plans have read from the blocks of a client; they may read it again. */
  forgetRead(clientKey: string): void {
    for (const { content } of this.#kept.get(clientKey)?.values() ?? []) content.clear();
  }

  /**
   * All findings in the blocks of a plan. `inputs`: what they follow from besides programs; `ask` finds them. The rules
   * on the whole plan may be asked after this, and know then which blocks say what they said before.
   */
  of(plan: ClientPlan, inputs: readonly unknown[], ask: (part: BlockPlan) => Sifted): readonly Sifted[] {
    const { client } = plan;
    const before = this.#kept.get(client.key);
    const now = new Map<string, KeptBlock>();
    const parts: PlanPart[] = [];
    for (const [block, sessions] of blockSessions(plan)) {
      const { program } = sessions[0] as Session;
      const key = freeKey(now, `${program.key} / ${block.key}`);
      const kept = keptBlock(before?.get(key), { client, program, block, sessions, inputs }, ask);
      now.set(key, kept);
      parts.push({ client, block, sessions, content: kept.content });
    }
    tellParts(plan, parts);
    this.#kept.set(client.key, now);
    return [...now.values()].map(({ found }) => found);
  }
}

/** Two blocks of one name are a mistake, and there all the same. */
function freeKey(taken: ReadonlyMap<string, unknown>, key: string): string {
  let free = key;
  while (taken.has(free)) free += "'";
  return free;
}

interface BlockToAsk {
  readonly client: Client;
  readonly program: Program;
  readonly block: Block;
  readonly sessions: readonly Session[];
  readonly inputs: readonly unknown[];
}

function keptBlock(
  before: KeptBlock | undefined,
  { client, program, block, sessions, inputs }: BlockToAsk,
  ask: (part: BlockPlan) => Sifted,
): KeptBlock {
  const calendar = calendarText(sessions);
  const head = { file: program.place.file, node: program.node };
  const { sources } = block;
  const moves =
    before && before.calendar === calendar && same(before.inputs, inputs)
      ? movesOf(before, head, sources)
      : null;
  const found = before && moves ? moved(before.found, moves) : ask({ client, sessions });
  const content: BlockContent = before && moves ? before.content : new Map();
  return { inputs, calendar, program: head, sources, found, content };
}

/** When each session is, and of which day; what else is planned for it follows from the client and her kits. */
function calendarText(sessions: readonly Session[]): string {
  let text = '';
  for (const { day, week, date, supervised, startMinute } of sessions)
    text += `${day.index} ${week} ${date} ${supervised} ${startMinute}\n`;
  return text;
}

/** A part of a file that lies so many characters further on than before. */
interface Move {
  readonly file: string;
  readonly from: number;
  readonly to: number;
  readonly by: number;
}

/** How far everything moved that a block follows from; null where any of it says something else. */
function movesOf(before: KeptBlock, program: KeptBlock['program'], sources: Block['sources']): Move[] | null {
  const head = headMove(before.program, program);
  if (head === null || before.sources.length !== sources.length) return null;
  const moves = [head];
  for (const [index, now] of sources.entries()) {
    const old = before.sources[index] as BlockSource;
    if (old.file !== now.file || writtenText(old) !== writtenText(now)) return null;
    const by = movedBy(old.node, now.node);
    if (by === null) return null;
    moves.push({ file: old.file, from: old.node.span.start, to: old.node.span.end, by });
  }
  return moves;
}

function writtenText({ text, node: { span } }: BlockSource): string {
  return text.slice(span.start, span.end);
}

/** The same for the lines of the program before its first block. */
function headMove(before: KeptBlock['program'], now: KeptBlock['program']): Move | null {
  const by = now.node.span.start - before.node.span.start;
  const { name, aim, texts, allows } = before.node;
  if (before.file !== now.file || !sayTheSame(name, now.node.name, by)) return null;
  if (!sayTheSame(aim, now.node.aim, by) || !sayTheSame(texts, now.node.texts, by)) return null;
  if (!sayTheSame(allows, now.node.allows, by)) return null;
  const { start, end } = before.node.span;
  return { file: before.file, from: start, to: (before.node.blocks[0]?.span.start ?? end + 1) - 1, by };
}

/** What was found, at its new places. What lies in none of the moved parts is of the client, a kit or a movement. */
function moved({ findings, used }: Sifted, moves: readonly Move[]): Sifted {
  if (moves.every(({ by }) => by === 0)) return { findings, used };
  const placed = (place: Place): Place => {
    const { start, end } = place.span;
    const move = moves.find(({ file, from, to }) => file === place.file && from <= start && start <= to);
    return move ? { file: place.file, span: { start: start + move.by, end: end + move.by } } : place;
  };
  const finding = (each: CodedFinding): CodedFinding => ({
    ...each,
    place: placed(each.place),
    related: each.related.map((line) => ({ ...line, place: placed(line.place) })),
    fixes: each.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, ...placed(edit) })),
    })),
  });
  return { findings: findings.map(finding), used: used.map(placed) };
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}
