import { EmbeddedActionsParser, type IToken } from 'chevrotain';
import type { CellItem, CellNode, GroupNode } from './ast.js';
import * as items from './cellItems.js';
import type { Problem, Span } from './problem.js';
import { plain, slip } from './slips.js';
import { ALL_TOKENS, Leading, Misfit, NamePart, OneWord, spanOf, token } from './tokens.js';

/**
 * What stands in the cells of a row. These rules accept every word: what means nothing becomes a problem of its
 * cell, so that a slip in one week leaves the other weeks standing.
 */
export abstract class CellRules extends EmbeddedActionsParser {
  /** The file, with comments blanked out. */
  protected source = '';
  /** Where the value of the line begins (behind the colon) and ends. */
  protected valueStart = 0;
  protected valueEnd = 0;
  protected found: Problem[] = [];

  constructor() {
    super([...ALL_TOKENS], {
      recoveryEnabled: false,
      nodeLocationTracking: 'none',
      skipValidations: true,
      maxLookahead: 2,
    });
  }

  /** Values are checked only for real lines, not while the rules are being recorded. */
  protected readonly report = (found: Problem): void => {
    if (!this.RECORDING_PHASE) this.found.push(found);
  };

  private readonly anyWord = this.RULE('anyWord', (): IToken =>
    this.OR([{ ALT: () => this.CONSUME(NamePart) }, { ALT: () => this.CONSUME(token('DecimalComma')) }]),
  );

  /** `4x6`, `r2`, `80%`, `warm`. */
  private readonly oneWordItem = this.RULE('oneWordItem', (): CellItem | null => {
    const word = this.CONSUME(OneWord);
    return this.ACTION(() => oneWord(word, this.report));
  });

  /** `rest 2min`, `rpe 8`, `no side`. */
  private readonly leadingItem = this.RULE('leadingItem', (): CellItem | null => {
    const word = this.CONSUME(Leading);
    const argument = this.OPTION(() => this.SUBRULE(this.anyWord));
    return this.ACTION(() => leading(this.source, word, argument, this.report));
  });

  /** An item that sets a dose, an effort or a load; no printed text. */
  protected readonly plainItem = this.RULE('plainItem', (): CellItem | null =>
    this.OR([{ ALT: () => this.SUBRULE(this.oneWordItem) }, { ALT: () => this.SUBRULE(this.leadingItem) }]),
  );

  private readonly textItem = this.RULE('textItem', (): CellItem | null => {
    const word = this.CONSUME(token('Text'));
    return this.ACTION(() => ({ kind: 'text', text: word.image.slice(1, -1), span: spanOf(word) }));
  });

  private readonly misfit = this.RULE('misfit', (): CellItem | null => {
    const word = this.CONSUME(Misfit);
    this.ACTION(() => this.report(slip(word.image, spanOf(word), 'cell')));
    return null;
  });

  private readonly anyItem = this.RULE('anyItem', (): CellItem | null =>
    this.OR([
      { ALT: () => this.SUBRULE(this.plainItem) },
      { ALT: () => this.SUBRULE(this.textItem) },
      { ALT: () => this.SUBRULE(this.misfit) },
    ]),
  );

  private readonly group = this.RULE('group', (): CellItem[] => {
    const read: CellItem[] = [];
    this.MANY(() => {
      const item = this.SUBRULE(this.anyItem);
      this.ACTION(() => {
        if (item !== null) read.push(item);
      });
    });
    return read;
  });

  private readonly cell = this.RULE('cell', (): GroupNode[] => {
    const groups: GroupNode[] = [];
    const first = this.SUBRULE1(this.group);
    this.ACTION(() => groups.push(groupNode(first, this.valueStart)));
    this.MANY(() => {
      const semi = this.CONSUME(token('Semi'));
      const next = this.SUBRULE2(this.group);
      this.ACTION(() => groups.push(groupNode(next, semi.startOffset + 1)));
    });
    return groups;
  });

  /** `3x6 r2 | 4x | x5`: one cell a week. */
  readonly cells = this.RULE('cells', (): CellNode[] => {
    const read: CellNode[] = [];
    let start = 0;
    let before = 0;
    this.ACTION(() => {
      start = this.valueStart;
    });
    this.AT_LEAST_ONE_SEP({
      SEP: token('Pipe'),
      DEF: () => {
        this.ACTION(() => {
          before = this.found.length;
          // The separator, when there is one, has just been taken.
          if (read.length > 0) start = spanOf(this.LA(0)).end;
        });
        const groups = this.SUBRULE(this.cell);
        this.ACTION(() => {
          const next = this.LA(1);
          const end = next.tokenType.name === 'Pipe' ? next.startOffset : this.valueEnd;
          const broken = this.found.length > before;
          read.push(cellNode(this.source, groups, read.length, { start, end }, broken));
        });
      },
    });
    return read;
  });
}

function groupNode(items: readonly CellItem[], emptyAt: number): GroupNode {
  const first = items[0];
  const last = items[items.length - 1];
  const span = first === undefined || last === undefined ? { start: emptyAt, end: emptyAt } : { start: first.span.start, end: last.span.end };
  return { items, span };
}

/** A cell with something in it spans from its first to its last character; an empty one, the space between its bars. */
function cellNode(source: string, groups: readonly GroupNode[], index: number, range: Span, broken: boolean): CellNode {
  const raw = source.slice(range.start, range.end);
  const trimmed = raw.trim();
  if (trimmed === '') {
    const lineEnd = raw.search(/[\r\n]/);
    const end = lineEnd < 0 ? range.end : range.start + lineEnd;
    return { groups: [], span: { start: range.start, end }, broken, index };
  }
  const start = range.start + raw.indexOf(trimmed);
  return { groups, span: { start, end: start + trimmed.length }, broken, index };
}

function oneWord(word: IToken, report: (found: Problem) => void): CellItem | null {
  const span = spanOf(word);
  switch (word.tokenType.name) {
    case 'Times':
    case 'Dose':
      return items.doseItem(word, report);
    case 'Reserve':
      return items.reserveItem(word, report);
    case 'Percent':
      return items.percentItem('percent', word, report);
    case 'ChangePercent':
      return items.percentItem('change-percent', word, report);
    case 'MassWord':
      return items.loadItem(word, report);
    case 'ChangeMass':
      return items.changeMassItem(word, report);
    case 'Bodyweight':
      return items.bodyweightItem(word, report);
    case 'WeekWord':
      return items.weekItem(word, report);
    case 'PerSide':
      return { kind: 'side', span };
    case 'LoneMinus':
      return { kind: 'left-out', span };
    case 'Warm':
      return { kind: 'warm', span };
    case 'Weekly':
      return { kind: 'weekly', span };
    case 'Stop':
      return { kind: 'stop', span };
    case 'Step':
      return { kind: 'step', direction: plain(word.image) === 'up' ? 'up' : 'down', span };
    default:
      report(slip(word.image, span, 'cell'));
      return null;
  }
}

function leading(source: string, word: IToken, argument: IToken | undefined, report: (found: Problem) => void): CellItem | null {
  switch (word.tokenType.name) {
    case 'Rest':
      return items.timeItem('rest', word, argument, report);
    case 'Off':
      return items.timeItem('off', word, argument, report);
    case 'Tempo':
      return items.tempoItem(word, argument, report);
    case 'Height':
      return items.heightItem(word, argument, report);
    case 'Rpe':
      return items.rpeItem(word, argument, report);
    case 'Pack':
      return items.packItem(word, argument, report);
    case 'Band':
      return items.bandItem(source, word, argument, report);
    case 'Test':
      return items.testItem(word, argument, report);
    default:
      return items.noItem(word, argument, report);
  }
}
