import type { CellItem, CellNode, GroupNode } from './ast.js';
import { checkGroup, reserveProblem } from './groupChecks.js';
import { problem, remove } from './messages.js';
import type { Problem, Span } from './problem.js';
import { say } from './say.js';
import type { Report } from './values.js';

/** Where a row stands, as far as its form depends on it. */
export interface RowPlace {
  readonly circuit: boolean;
  /** In a `like` block a lone `-` removes the row. */
  readonly like: boolean;
}

function dose(group: GroupNode | undefined): (CellItem & { kind: 'dose' }) | undefined {
  return group?.items.find((item): item is CellItem & { kind: 'dose' } => item.kind === 'dose');
}

function has(group: GroupNode | undefined, ...kinds: readonly CellItem['kind'][]): boolean {
  return group?.items.some((item) => kinds.includes(item.kind)) ?? false;
}

/**
 * Checks the cells of one row together and returns them with `broken` set where something was found. Cells that
 * were broken before stay so, and nothing is asked of cells that rest on them.
 */
export function checkRow(
  cells: readonly CellNode[],
  place: RowPlace,
  nameSpan: Span,
  report: Report,
): readonly CellNode[] {
  const check = new RowCheck(cells, place, nameSpan);
  check.run();
  for (const found of check.problems) report(found);
  if (check.broken.size === 0) return cells;
  return cells.map((cell) => (check.broken.has(cell.index) ? { ...cell, broken: true } : cell));
}

class RowCheck {
  readonly problems: Problem[] = [];
  readonly broken = new Set<number>();
  private started = false;
  private week = 0;
  private amounts: ('reps' | 'seconds' | 'metres' | null)[] = [];

  constructor(
    private readonly cells: readonly CellNode[],
    private readonly place: RowPlace,
    private readonly nameSpan: Span,
  ) {}

  run(): void {
    const damaged = this.cells.findIndex((cell) => cell.broken);
    for (const cell of this.cells) {
      this.checkWeek(cell);
      const report = this.into(cell);
      for (const [index, group] of cell.groups.entries())
        if (group.items.length > 0) checkGroup(group, index, report);
      if (this.place.circuit) this.circuitCell(cell);
      // After a damaged cell the state is unknown, so nothing is said about what the later ones lack.
      if (damaged >= 0 && cell.index >= damaged) continue;
      if (!this.started) this.beginning(cell);
      else this.later(cell);
      this.carry(cell);
    }
    this.weekly();
  }

  private into(cell: CellNode): Report {
    return (found) => {
      this.problems.push(found);
      this.broken.add(cell.index);
    };
  }

  private checkWeek(cell: CellNode): void {
    const named = cell.groups[0]?.items.find((item) => item.kind === 'week');
    if (named?.kind !== 'week') {
      this.week += 1;
      return;
    }
    if (named.week <= this.week) {
      this.into(cell)(
        problem(
          'week-order',
          named.span,
          say`\`wk${named.week}\` comes after week ${this.week}. Weeks only go forward.`,
        ),
      );
      this.week += 1;
      return;
    }
    if (!this.started && named.week > this.week + 1 && cell.index === 0) {
      this.into(cell)(
        problem(
          'week-order',
          named.span,
          say`The first cell is week 1, and \`wk${named.week}\` leaves the weeks before it without any work. Write \`-\` for a week that is left out.`,
        ),
      );
    }
    this.week = named.week;
  }

  /** Until sets and reps are there, a cell may only leave the week out or test. */
  private beginning(cell: CellNode): void {
    const report = this.into(cell);
    const first = cell.groups[0];
    if (has(first, 'left-out')) {
      if (this.cells.length === 1 && !this.place.like) {
        report(
          problem(
            'first-cell',
            cell.span,
            say(
              'A row that is only `-` asks for nothing. Write sets and reps, or leave the row out. (In a block made `like` another, `-` removes the row.)',
            ),
          ),
        );
      }
      return;
    }
    if (has(first, 'test')) return;
    this.started = true;
    if (first === undefined || first.items.length === 0) {
      report(this.incomplete(cell, cell.groups.length === 0 ? this.nameSpan : cell.span, 'nothing'));
      return;
    }
    this.noChange(first, report);
    if (has(first, 'stop')) {
      report(
        problem(
          'first-cell',
          cell.span,
          say('`stop` ends a row that has begun; the first cell needs sets and reps.'),
        ),
      );
      return;
    }
    const found = dose(first);
    if (found === undefined) report(this.incomplete(cell, first.span, say('no sets and reps')));
    else if (found.amount === null) report(this.incomplete(cell, found.span, say('sets without reps')));
    else if (found.sets === null && !this.place.circuit)
      report(this.incomplete(cell, found.span, say('reps without sets')));
    for (const group of cell.groups.slice(1)) this.newGroup(group, report);
  }

  private incomplete(cell: CellNode, span: Span, found: string): Problem {
    const needs = this.place.circuit
      ? say('reps, time or distance, such as `x10` or `x30s`')
      : say('sets and reps (or time, or distance), such as `3x6` or `3x30s`');
    const which = cell.index === 0 ? say('The first cell of a row') : say('The first cell with work');
    return problem('first-cell', span, say`${which} needs ${needs}. Found ${found}.`);
  }

  private noChange(group: GroupNode, report: Report): void {
    const change = group.items.find((item) =>
      ['change-percent', 'change-mass', 'step', 'weekly'].includes(item.kind),
    );
    if (change === undefined) return;
    report(
      problem(
        'first-cell',
        change.span,
        say(
          'There is no week before the first cell that could be changed. Write the effort or the load itself.',
        ),
        [remove(change.span, say('Leave the change out'))],
      ),
    );
  }

  /** A set group that was not there before says how many sets; reps too, unless it takes them over. */
  private newGroup(group: GroupNode, report: Report): void {
    if (has(group, 'left-out', 'test')) return;
    const found = dose(group);
    const own = has(group, 'reserve', 'percent', 'load', 'bodyweight', 'pack', 'band');
    const sets = this.place.circuit ? true : found !== undefined && found.sets !== null;
    if (group.items.length === 0) {
      report(
        problem(
          'syntax',
          { start: Math.max(0, group.span.start - 1), end: group.span.start },
          say('Nothing stands after `;`. Write the next set group, or leave the `;` out.'),
        ),
      );
    } else if (!sets) {
      report(
        problem(
          'first-cell',
          group.span,
          say('A new set group says how many sets it has, such as `; 3x5 -10%`.'),
        ),
      );
    } else if (own && (found?.amount ?? null) === null) {
      report(
        problem(
          'first-cell',
          group.span,
          say('A set group with its own effort or load says its reps too, such as `; 2x8 r3`.'),
        ),
      );
    }
  }

  private later(cell: CellNode): void {
    const report = this.into(cell);
    cell.groups.forEach((group, index) => {
      if (index > 0 && index >= this.amounts.length) this.newGroup(group, report);
      const amount = dose(group)?.amount?.kind ?? this.amounts[index] ?? null;
      const reserve = group.items.find((item) => item.kind === 'reserve');
      const written = dose(group)?.amount ?? null;
      if (reserve !== undefined && written === null && (amount === 'seconds' || amount === 'metres')) {
        report(reserveProblem(reserve, amount));
      }
    });
    const last = cell.groups[cell.groups.length - 1];
    if (cell.groups.length > 1 && last?.items.length === 0 && cell.groups.length <= this.amounts.length) {
      report(
        problem(
          'syntax',
          { start: last.span.start - 1, end: last.span.start },
          say('Nothing stands after `;`. Write the change, or leave the `;` out.'),
        ),
      );
    }
  }

  private carry(cell: CellNode): void {
    cell.groups.forEach((group, index) => {
      const kind = dose(group)?.amount?.kind;
      if (kind !== undefined) this.amounts[index] = kind;
      else if (this.amounts[index] === undefined) this.amounts[index] = null;
    });
  }

  private circuitCell(cell: CellNode): void {
    for (const group of cell.groups) {
      const found = dose(group);
      if (found === undefined || found.sets === null) continue;
      const fix =
        found.amount === null
          ? remove(found.span, say('Leave the sets out'))
          : remove(
              { start: found.span.start, end: found.span.start + String(found.sets).length },
              say('Leave the sets out'),
            );
      this.into(cell)(
        problem(
          'circuit-cell',
          found.span,
          say('The rounds of the circuit are the sets, so a row inside has reps alone, such as `x10`.'),
          [fix],
        ),
      );
    }
  }

  /** `weekly` goes on to the end of the block, so no cell with anything in it may follow. */
  private weekly(): void {
    const lastWritten = this.cells.reduce((last, cell) => (cell.groups.length > 0 ? cell.index : last), -1);
    for (const cell of this.cells) {
      if (cell.index === lastWritten) continue;
      for (const group of cell.groups) {
        const item = group.items.find((each) => each.kind === 'weekly');
        if (item === undefined) continue;
        this.into(cell)(
          problem(
            'weekly-not-last',
            item.span,
            say(
              '`weekly` goes on to the end of the block, so nothing may be written after it. Move it to the last written cell, or take it out.',
            ),
            [remove(item.span, say('Leave `weekly` out'))],
          ),
        );
      }
    }
  }
}

/** What the weeks of the block allow: null when all cells lie inside it. */
export function cellsBeyond(cells: readonly CellNode[], weeks: number): Problem | null {
  let week = 0;
  for (const cell of cells) {
    const named = cell.groups[0]?.items.find((item) => item.kind === 'week');
    week = named?.kind === 'week' && named.week > week ? named.week : week + 1;
    if (week <= weeks) continue;
    if (named?.kind === 'week') {
      return problem(
        'week-order',
        named.span,
        say`The block has ${weeks} weeks, so there is no week ${named.week}.`,
      );
    }
    const last = cells[cells.length - 1] as CellNode;
    return problem(
      'cells-too-many',
      { start: cell.groups.length > 0 ? cell.span.start : cell.span.start - 1, end: last.span.end },
      say`The block has ${weeks} weeks, and this row has ${week + (last.index - cell.index)} cells. Take cells out, or make the block longer.`,
    );
  }
  return null;
}
