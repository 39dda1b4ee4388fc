import type { CellItem, GroupNode } from './ast.js';
import { problem, remove } from './messages.js';
import { said, say } from './say.js';
import type { Report } from './values.js';
import { KIND_TITLES } from './vocabulary.js';

/** Items that say the same kind of thing share a family: two of one family in a group contradict each other. */
function familyOf(item: CellItem): string {
  switch (item.kind) {
    case 'change-percent':
    case 'change-mass':
    case 'step':
      return 'change';
    case 'no':
      return item.what === 'deload' ? 'no deload' : item.what;
    default:
      return item.kind;
  }
}

const LOADS: ReadonlySet<CellItem['kind']> = new Set(['percent', 'load', 'bodyweight']);
const WEIGHTS: ReadonlySet<CellItem['kind']> = new Set([...LOADS, 'pack', 'band']);

/** What one group may not say by itself, whichever cell it stands in. */
export function checkGroup(group: GroupNode, index: number, report: Report): void {
  // Most groups say one thing, and one thing cannot contradict itself.
  if (group.items.length > 1) {
    once(group, report);
    oneLoad(group, report);
  }
  standsAlone(group, index, report);
  const change = group.items.some((item) => familyOf(item) === 'change');
  for (const item of group.items) {
    if (item.kind === 'weekly' && !change) {
      report(
        problem(
          'syntax',
          item.span,
          say('`weekly` repeats a change, and this group has none. Write for example `+2% weekly`.'),
        ),
      );
    }
    if (item.kind === 'week' && (index > 0 || item !== group.items[0])) {
      report(
        problem(
          'week-order',
          item.span,
          say`\`wk${item.week}\` says which week the cell is, so it stands first in the cell.`,
        ),
      );
    }
  }
  timedWithoutReserve(group, report);
}

function once(group: GroupNode, report: Report): void {
  const seen = new Set<string>();
  for (const item of group.items) {
    const family = familyOf(item);
    if (seen.has(family)) {
      const what = said(KIND_TITLES[family] ?? family);
      report(
        problem(
          'item-twice',
          item.span,
          say`This group says ${what} twice, so it is open which counts. Leave one out.`,
          [remove(item.span, say('Leave the second one out'))],
        ),
      );
    }
    seen.add(family);
  }
}

function oneLoad(group: GroupNode, report: Report): void {
  const loads = group.items.filter((item) => LOADS.has(item.kind));
  const second = loads[1];
  if (second !== undefined && second.kind !== loads[0]?.kind) {
    report(
      problem(
        'item-conflict',
        second.span,
        say('This group says its load in two ways. Keep one: a share of the max, a load, or `bw`.'),
        [remove(second.span, say('Leave this one out'))],
      ),
    );
  }
  const weight = group.items.find((item) => WEIGHTS.has(item.kind));
  const change = group.items.find((item) => familyOf(item) === 'change');
  if (weight !== undefined && change !== undefined) {
    report(
      problem(
        'item-conflict',
        change.span,
        say('This group says a load and a change of load. Write the load, or the change.'),
        [remove(change.span, say('Leave the change out'))],
      ),
    );
  }
  const test = group.items.find((item) => item.kind === 'test');
  const dose = group.items.find((item) => item.kind === 'dose');
  if (test !== undefined && dose !== undefined) {
    report(
      problem(
        'item-conflict',
        dose.span,
        say('A test sets its own sets and reps. Put other work into its own group after `;`.'),
        [remove(dose.span, say('Leave the sets and reps out'))],
      ),
    );
  }
}

/** `-` and `stop` leave the movement out, so no dose or load stands beside them. */
function standsAlone(group: GroupNode, index: number, report: Report): void {
  const out = group.items.find((item) => item.kind === 'left-out' || item.kind === 'stop');
  if (out === undefined) return;
  const word = out.kind === 'stop' ? 'stop' : '-';
  if (out.kind === 'stop' && index > 0) {
    report(problem('syntax', out.span, say('`stop` ends the whole row. To drop this group, write `; -`.')));
    return;
  }
  const other = group.items.find((item) => item !== out && item.kind !== 'text' && item.kind !== 'week');
  if (other !== undefined) {
    report(
      problem(
        'item-conflict',
        other.span,
        say`\`${word}\` leaves this out, so nothing else can be asked for beside it.`,
        [remove(out.span, say`Leave the \`${word}\` out`)],
      ),
    );
  }
}

function timedWithoutReserve(group: GroupNode, report: Report): void {
  const dose = group.items.find((item) => item.kind === 'dose');
  const reserve = group.items.find((item) => item.kind === 'reserve');
  if (reserve === undefined || dose?.kind !== 'dose' || dose.amount === null || dose.amount.kind === 'reps')
    return;
  report(reserveProblem(reserve, dose.amount.kind));
}

/** `3x30s r2`. */
export function reserveProblem(reserve: CellItem, amount: 'seconds' | 'metres') {
  const work = amount === 'seconds' ? say('for time') : say('over a distance');
  return problem(
    'reserve-without-reps',
    reserve.span,
    say`Reps in reserve count reps, and this work is ${work}. Leave it out.`,
    [remove(reserve.span, say('Leave the reserve out'))],
  );
}
