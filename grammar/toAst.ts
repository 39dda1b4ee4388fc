import type * as ast from './ast.js';
import type { LogicalLine, PhysicalLine } from './lines.js';
import { problem, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import type { LineMeaning, OpenerLevel, Place, ReadLine } from './readLine.js';
import { type Header, levelOf } from './readOpener.js';
import { cellsBeyond } from './rowChecks.js';
import { say } from './say.js';
import type { Placed } from './statementValues.js';
import { type SectionKind, VOCABULARY } from './vocabulary.js';

type Mutable<Node> = {
  -readonly [Key in keyof Node]: Node[Key] extends readonly (infer Item)[] ? Item[] : Node[Key];
};
type OpenProgram = Mutable<ast.ProgramNode>;
type OpenBlock = Mutable<ast.BlockNode>;
type OpenDay = Mutable<ast.DayNode>;
type OpenCircuit = Mutable<ast.CircuitNode>;
type OpenSection =
  | Mutable<ast.KitNode>
  | Mutable<ast.MovementNode>
  | Mutable<ast.ClientNode>
  | Mutable<ast.GroupSectionNode>
  | Mutable<ast.LogNode>
  | OpenProgram;
type Allowing = { allows: ast.AllowNode[] };

/** How deep below the open section lines are lost; null: nothing is lost. */
type Lost = OpenerLevel | null;

/**
 * Puts lines together into sections. It is told one line after another and answers in which place the next one
 * stands, because the reading of a line depends on it.
 */
export class Assembly {
  readonly sections: ast.SectionNode[] = [];
  readonly problems: Problem[] = [];
  private section: OpenSection | null = null;
  private block: OpenBlock | null = null;
  private day: OpenDay | null = null;
  private circuit: OpenCircuit | null = null;
  private lost: Lost = null;
  /** What an `allow` line belongs to: what stands directly above; null when that could not be read. */
  private above: Allowing | null = null;
  private seen = new Map<object, Set<string>>();
  private indents = { section: 0, block: 0, day: 0, circuit: 0, lost: 0 };

  /** Where the next line stands. `endAhead`: an `end` comes before the next opener. */
  place(endAhead: boolean): Place {
    const like = this.block?.like != null;
    const { indents } = this;
    if (this.lost !== null) return { section: 'lost', like, indent: indents.lost, endAhead };
    if (this.circuit) return { section: 'circuit', like, indent: indents.circuit, endAhead };
    if (this.day) return { section: 'day', like, indent: indents.day, endAhead };
    if (this.block) return { section: 'block', like, indent: indents.block, endAhead: false };
    return { section: this.section?.kind ?? 'none', like, indent: indents.section, endAhead: false };
  }

  /** Takes one line; answers the depth at which the formatter writes it. */
  add(line: ReadLine, indent: number): number {
    this.problems.push(...line.problems);
    const { meaning, content } = line;
    if (meaning.form === 'opener') this.indents[levelOf(meaning.opener)] = indent;
    if (meaning.form === 'broken-opener') this.indents.lost = indent;
    switch (meaning.form) {
      case 'blank':
      case 'comment':
        return this.depth();
      case 'end':
        return this.end(content, line.problems.length > 0);
      case 'opener':
        return this.open(meaning.opener, meaning.header, content);
      case 'broken-opener':
        return this.openBroken(meaning.level, content);
      case 'broken':
        this.damage(content);
        return this.depth();
      default:
        this.statement(meaning.node);
        return this.depth();
    }
  }

  /** Closes what is open at the end of the file. */
  finish(): void {
    this.closeSection();
  }

  private depth(): number {
    if (this.circuit || this.lost === 'circuit') return 2;
    return this.section || this.lost !== null ? 1 : 0;
  }

  // ------------------------------------------------------------ opening and closing

  private open(opener: SectionKind, header: Header, content: Span): number {
    if (opener === 'block' || opener === 'day' || opener === 'circuit')
      return this.openInner(header, content);
    this.closeSection();
    this.lost = null;
    const base = { headerSpan: content, span: content, damaged: [] };
    // Logs are many, so that theirs is written out: a spread takes several times as long.
    if (header.opener === 'log')
      this.section = {
        kind: 'log',
        clients: [...header.log.clients],
        date: header.log.date,
        day: header.log.day,
        lines: [],
        allows: [],
        damaged: [],
        headerSpan: content,
        span: content,
      };
    else if ('name' in header) this.section = emptySection(header.opener, header.name, base);
    this.above = this.section !== null && 'allows' in this.section ? this.section : null;
    return 0;
  }

  private openInner(header: Header, content: Span): number {
    if (this.lost === 'section') return header.opener === 'circuit' ? 1 : 0;
    const base = { headerSpan: content, span: content, damaged: [], allows: [] };
    if (header.opener === 'block') {
      this.closeBlock();
      this.lost = null;
      if (this.section?.kind !== 'program')
        return this.misplacedOpener('block', say('a program'), 'program Harbour winter', content);
      const { name, weeks, stage, deloadWeeks, like, likeChangePercent } = header.block;
      this.block = {
        ...base,
        kind: 'block',
        name,
        weeks: weeks ?? null,
        stage: stage ?? null,
        deloadWeeks: [...(deloadWeeks ?? [])],
        like: like ?? null,
        likeChangePercent: likeChangePercent ?? null,
        effort: null,
        days: [],
        texts: [],
      };
      this.above = this.block;
      return 0;
    }
    if (this.lost === 'block') return header.opener === 'circuit' ? 1 : 0;
    if (header.opener === 'day') {
      this.closeDay();
      this.lost = null;
      if (this.block === null)
        return this.misplacedOpener('day', say('a block'), 'block Keel, 5 weeks, load', content);
      this.day = { ...base, kind: 'day', name: header.name, effort: null, entries: [] };
      this.above = this.day;
      return 0;
    }
    if (this.lost === 'day' || header.opener !== 'circuit') return 1;
    this.closeCircuit(false);
    this.lost = null;
    if (this.day === null) return this.misplacedOpener('circuit', say('a day'), 'day Lower', content);
    const { name, rounds, seconds, everySeconds, restSeconds } = header.circuit;
    this.circuit = {
      ...base,
      kind: 'circuit',
      name,
      rounds: rounds ?? null,
      seconds: seconds ?? null,
      everySeconds: everySeconds ?? null,
      restSeconds: restSeconds ?? null,
      roundsByWeek: null,
      entries: [],
    };
    this.above = this.circuit;
    return 1;
  }

  private misplacedOpener(opener: OpenerLevel, inside: string, example: string, content: Span): number {
    this.problems.push(
      problem(
        'out-of-place',
        content,
        say`A ${opener} stands in ${inside}, and none is open here. Open one above it, such as \`${example}\`.`,
      ),
    );
    this.lost = opener;
    this.indents.lost = this.indents[opener];
    this.above = null;
    return opener === 'circuit' ? 1 : 0;
  }

  /** What follows a broken opener must not be added to what stands before it. */
  private openBroken(level: OpenerLevel, content: Span): number {
    const order = ['section', 'block', 'day', 'circuit'];
    if (this.lost !== null && order.indexOf(this.lost) < order.indexOf(level))
      return level === 'circuit' ? 1 : 0;
    if (level === 'section') this.closeSection();
    else if (level === 'block') this.closeBlock();
    else if (level === 'day') this.closeDay();
    else this.closeCircuit(false);
    this.lost = null;
    this.damage(content);
    this.lost = level;
    return level === 'circuit' ? 1 : 0;
  }

  private end(content: Span, guessed: boolean): number {
    if (this.lost === 'circuit') {
      this.lost = null;
      return 1;
    }
    if (this.lost !== null) return 1;
    if (this.circuit === null) {
      if (!guessed) {
        this.problems.push(
          problem(
            'end-alone',
            content,
            say(
              '`end` closes a circuit, and none is open here. Days, blocks and programs end where the next one begins, so leave it out.',
            ),
            [{ title: say('Leave it out'), safe: true, edits: [{ span: content, newText: '' }] }],
          ),
        );
      }
      return this.depth();
    }
    this.circuit.span = { start: this.circuit.span.start, end: content.end };
    const closed = this.circuit;
    this.closeCircuit(true);
    this.above = closed;
    return 1;
  }

  private closeCircuit(ended: boolean): void {
    const { circuit } = this;
    if (circuit === null) return;
    if (!ended) {
      this.problems.push(
        problem(
          'circuit-open',
          circuit.headerSpan,
          say`The circuit ${shown(circuit.name.text)} has no \`end\`, so it is open where it stops. Put \`end\` on a line of its own after its last row.`,
          [
            {
              title: say('Put `end` after its last row'),
              safe: false,
              edits: [{ span: { start: circuit.span.end, end: circuit.span.end }, newText: '\nend' }],
            },
          ],
        ),
      );
      circuit.damaged.push(circuit.headerSpan);
    }
    if (circuit.rounds === null && circuit.seconds === null && circuit.roundsByWeek === null) {
      this.problems.push(
        problem(
          'opener-incomplete',
          circuit.headerSpan,
          say`The circuit ${shown(circuit.name.text)} says neither rounds nor time. Write for example \`circuit ${circuit.name.text}, 3 rounds\`.`,
        ),
      );
      circuit.damaged.push(circuit.headerSpan);
    }
    const node = circuit as ast.CircuitNode;
    this.day?.entries.push(node);
    if (this.day) grow(this.day, circuit.span);
    this.circuit = null;
  }

  private closeDay(): void {
    this.closeCircuit(false);
    if (this.day !== null && this.block !== null) {
      this.block.days.push(this.day as ast.DayNode);
      grow(this.block, this.day.span);
    }
    this.day = null;
  }

  private closeBlock(): void {
    this.closeDay();
    if (this.block !== null && this.section?.kind === 'program') {
      this.section.blocks.push(this.block as ast.BlockNode);
      grow(this.section, this.block.span);
    }
    this.block = null;
  }

  private closeSection(): void {
    this.closeBlock();
    if (this.section !== null) this.sections.push(this.section as ast.SectionNode);
    this.section = null;
  }

  // ------------------------------------------------------------ lines

  private innermost(): OpenSection | OpenBlock | OpenDay | OpenCircuit | null {
    return this.circuit ?? this.day ?? this.block ?? this.section;
  }

  /** Notes that a line of the open part could not be read, so that nobody takes the part for whole. */
  private damage(content: Span): void {
    const owner = this.innermost();
    this.above = null;
    if (owner === null || this.lost !== null) return;
    owner.damaged.push(content);
    grow(owner, content);
  }

  private statement(node: Placed): void {
    if (this.lost !== null) return;
    const owner = this.innermost();
    if (owner === null) {
      this.problems.push(
        problem(
          'out-of-place',
          node.span,
          say('Text to be printed stands in a program, a block or a day. Nothing is open here.'),
        ),
      );
      return;
    }
    if (node.kind === 'allow') {
      // In a log it is about the whole log, wherever it stands, so a broken line above does not cost it its place.
      const above = owner.kind === 'log' ? owner : this.above;
      if (above !== null) {
        above.allows.push(node);
        grow(above as unknown as { span: Span }, node.span);
      }
      if (owner.kind === 'client') owner.lines.push(node);
      grow(owner, node.span);
      return;
    }
    if (this.twice(owner, node)) return;
    grow(owner, node.span);
    this.put(owner, node);
  }

  /** Whether this statement stands for the second time where it may stand once; the first one holds. */
  private twice(owner: { kind: SectionKind }, node: Placed): boolean {
    const label = labelOf(node);
    const entry = VOCABULARY.statements[owner.kind].find((each) => each.word === label);
    if (entry === undefined || entry.many) return false;
    const seen = this.seen.get(owner) ?? new Set();
    this.seen.set(owner, seen);
    if (!seen.has(label)) {
      seen.add(label);
      return false;
    }
    this.problems.push(
      problem(
        'line-twice',
        node.span,
        say`\`${label}:\` stands twice here, so it is open which holds. Leave one out.`,
        [{ title: say('Leave this one out'), safe: false, edits: [{ span: node.span, newText: '' }] }],
      ),
    );
    return true;
  }

  private put(owner: OpenSection | OpenBlock | OpenDay | OpenCircuit, node: Placed): void {
    switch (owner.kind) {
      case 'kit':
      case 'movement':
      case 'client':
      case 'log':
        if (node.kind === 'printed-text') this.textOutOfPlace(node);
        else (owner.lines as Placed[]).push(node);
        return;
      case 'group':
        if (node.kind === 'members') owner.members.push(...node.members);
        else if (node.kind === 'follows') owner.follows.push(node);
        else this.textOutOfPlace(node);
        return;
      case 'program':
        if (node.kind === 'aim') owner.aim = node.aim;
        else if (node.kind === 'printed-text') owner.texts.push(node);
        return;
      case 'block':
        if (node.kind === 'effort') this.effort(owner, node);
        else if (node.kind === 'printed-text') owner.texts.push(node);
        return;
      case 'day':
        if (node.kind === 'effort') this.effort(owner, node);
        else this.entry(owner, node);
        return;
      default:
        if (node.kind === 'rounds') this.rounds(owner, node);
        else this.entry(owner, node);
    }
  }

  private textOutOfPlace(node: Placed): void {
    this.problems.push(
      problem(
        'out-of-place',
        node.span,
        say(
          'A line of text is printed where it stands in a program, and this is none. Write `care: "…"`, `cue: "…"` or `note: "…"`, or a note for the coach after ` -- `.',
        ),
      ),
    );
  }

  private entry(owner: OpenDay | OpenCircuit, node: Placed): void {
    if (node.kind === 'printed-text') {
      owner.entries.push(node);
      return;
    }
    if (node.kind !== 'row') return;
    const row: Mutable<ast.RowNode> = { ...node, cells: this.inBlock(node.cells), allows: [] };
    owner.entries.push(row as ast.RowNode);
    this.above = row;
  }

  /** Cells past the end of the block are broken; the length of a `like` block is known only when names are. */
  private inBlock(cells: readonly ast.CellNode[]): ast.CellNode[] {
    const weeks = this.block?.weeks?.value;
    const beyond = weeks === undefined ? null : cellsBeyond(cells, weeks);
    if (beyond === null) return cells as ast.CellNode[];
    this.problems.push(beyond);
    return cells.map((cell) =>
      cell.span.end >= beyond.span.start
        ? { ...cell, broken: cell.broken || cell.span.start >= beyond.span.start }
        : cell,
    );
  }

  private tooMany(cells: readonly unknown[], span: Span, what: string): void {
    const weeks = this.block?.weeks?.value;
    if (weeks === undefined || cells.length <= weeks) return;
    this.problems.push(
      problem(
        'cells-too-many',
        span,
        say`The block has ${weeks} weeks, and \`${what}:\` has ${cells.length} cells. Take cells out, or make the block longer.`,
      ),
    );
    this.damage(span);
  }

  private effort(owner: OpenBlock | OpenDay, node: ast.EffortNode): void {
    this.tooMany(node.cells, node.span, 'effort');
    owner.effort = node;
  }

  private rounds(owner: OpenCircuit, node: ast.RoundsNode): void {
    this.tooMany(node.cells, node.span, 'rounds');
    owner.roundsByWeek = node;
  }
}

function grow(node: { span: Span }, span: Span): void {
  if (span.end > node.span.end) node.span = { start: node.span.start, end: span.end };
}

function emptySection(
  kind: 'kit' | 'movement' | 'client' | 'group' | 'program' | 'day',
  name: ast.Name,
  base: { headerSpan: Span; span: Span; damaged: Span[] },
): OpenSection {
  switch (kind) {
    case 'group':
      return { ...base, kind, name, members: [], follows: [], allows: [] };
    case 'program':
      return { ...base, kind, name, aim: null, blocks: [], texts: [], allows: [] };
    case 'kit':
      return { ...base, kind, name, lines: [] };
    case 'movement':
      return { ...base, kind, name, lines: [] };
    default:
      return { ...base, kind: 'client', name, lines: [] };
  }
}

/** The label that a statement is written with, as the vocabulary has it. */
function labelOf(node: Placed): string {
  switch (node.kind) {
    case 'lifting-since':
      return 'lifting since';
    case 'trains-at':
      return 'trains at';
    default:
      return node.kind;
  }
}

/** Adds how each physical line of a logical one is to be shown. */
export function lineNodes(
  nodes: ast.LineNode[],
  line: LogicalLine,
  physical: readonly PhysicalLine[],
  meaning: LineMeaning,
  depth: number,
): void {
  for (let index = line.first; index <= line.last; index++) {
    const { span, content, comment } = physical[index] as PhysicalLine;
    let kind = kindOf(meaning);
    if (index > line.first) {
      if (content.end > content.start) kind = 'continuation';
      else kind = comment === null ? 'blank' : 'comment';
    }
    nodes.push({ kind, span, depth: kind === 'continuation' ? depth + 1 : depth });
  }
}

function kindOf(meaning: LineMeaning): ast.LineKind {
  switch (meaning.form) {
    case 'statement':
      if (meaning.node.kind === 'printed-text') return 'text';
      return meaning.node.kind === 'row' ? 'row' : 'statement';
    case 'broken-opener':
      return 'broken';
    default:
      return meaning.form;
  }
}
