import { EmbeddedActionsParser, type IToken } from 'chevrotain';
import type { CellItem, CellNode, GroupNode } from './ast.js';
import * as items from './cellItems.js';
import type { Problem } from './problem.js';
import { plain, slip } from './slips.js';
import { ALL_TOKENS, Argument, Leading, Misfit, OneWord, spanOf, token } from './tokens.js';
import type { Report } from './values.js';

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

  /** An item that sets a dose, an effort or a load; no printed text. */
  protected readonly plainItem = this.RULE('plainItem', (): CellItem | null =>
    this.OR([
      {
        ALT: () => {
          const word = this.CONSUME(OneWord);
          return this.ACTION(() => oneWord(word, this.report));
        },
      },
      {
        ALT: () => {
          const word = this.CONSUME(Leading);
          const argument = this.OPTION(() => this.CONSUME(Argument));
          return this.ACTION(() => leading(this.source, word, argument, this.report));
        },
      },
    ]),
  );

  /** `3x6 r2 | 4x | x5`: one cell a week. One flat rule, because most of a file is cells. */
  readonly cells = this.RULE('cells', (): CellNode[] => {
    this.building = new CellBuilder(this.source, this.valueStart, this.valueEnd, this.found);
    this.MANY(() => this.OR(this.cellParts));
    return this.building.finish();
  });

  private building = new CellBuilder('', 0, 0, []);

  private readonly cellParts = [
    { ALT: () => this.item(oneWord, this.CONSUME(OneWord)) },
    {
      ALT: () => {
        const word = this.CONSUME(Leading);
        const argument = this.OPTION(() => this.CONSUME(Argument));
        if (!this.RECORDING_PHASE) this.building.item(leading(this.source, word, argument, this.report));
      },
    },
    { ALT: () => this.item(textItem, this.CONSUME(token('Text'))) },
    { ALT: () => this.item(misfit, this.CONSUME(Misfit)) },
    { ALT: () => this.part(this.CONSUME(token('Semi'))) },
    { ALT: () => this.part(this.CONSUME(token('Pipe'))) },
  ];

  private item(read: (word: IToken, report: Report) => CellItem | null, word: IToken): void {
    if (!this.RECORDING_PHASE) this.building.item(read(word, this.report));
  }

  private part(mark: IToken): void {
    if (!this.RECORDING_PHASE) this.building.part(mark);
  }
}

/** Gathers the items of a row into groups and cells as they come. */
class CellBuilder {
  private readonly cells: CellNode[] = [];
  private groups: GroupNode[] = [];
  private items: CellItem[] = [];
  private cellStart: number;
  private groupStart: number;
  private before: number;

  constructor(
    private readonly source: string,
    start: number,
    private readonly end: number,
    private readonly found: readonly Problem[],
  ) {
    this.cellStart = start;
    this.groupStart = start;
    this.before = found.length;
  }

  item(item: CellItem | null): void {
    if (item !== null) this.items.push(item);
  }

  part(mark: IToken): void {
    this.closeGroup();
    this.groupStart = mark.startOffset + 1;
    if (mark.tokenType.name !== 'Pipe') return;
    this.closeCell(mark.startOffset);
    this.cellStart = mark.startOffset + 1;
  }

  finish(): CellNode[] {
    this.closeGroup();
    this.closeCell(this.end);
    return this.cells;
  }

  private closeGroup(): void {
    const { items } = this;
    const first = items[0];
    const last = items[items.length - 1];
    const span =
      first === undefined || last === undefined
        ? { start: this.groupStart, end: this.groupStart }
        : { start: first.span.start, end: last.span.end };
    this.groups.push({ items, span });
    this.items = [];
  }

  /** A cell with something in it spans from its first to its last character; an empty one, the space between its bars. */
  private closeCell(end: number): void {
    const raw = this.source.slice(this.cellStart, end);
    const trimmed = raw.trim();
    const index = this.cells.length;
    const broken = this.found.length > this.before;
    if (trimmed === '') {
      const lineEnd = raw.search(/[\r\n]/);
      const span = { start: this.cellStart, end: lineEnd < 0 ? end : this.cellStart + lineEnd };
      this.cells.push({ groups: [], span, broken, index });
    } else {
      const start = this.cellStart + raw.indexOf(trimmed);
      this.cells.push({ groups: this.groups, span: { start, end: start + trimmed.length }, broken, index });
    }
    this.groups = [];
    this.before = this.found.length;
  }
}

function textItem(word: IToken): CellItem {
  return { kind: 'text', text: word.image.slice(1, -1), span: spanOf(word) };
}

function misfit(word: IToken, report: Report): null {
  report(slip(word.image, spanOf(word), 'cell'));
  return null;
}

function oneWord(word: IToken, report: Report): CellItem | null {
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

function leading(
  source: string,
  word: IToken,
  argument: IToken | undefined,
  report: Report,
): CellItem | null {
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
