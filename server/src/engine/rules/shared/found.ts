import type { Place, ResolvedCell, ResolvedGroup } from '../../model.js';
import type { BlockPlan, RawFinding } from '../../ruleForm.js';
import { cellsWhere, rowRuns } from './cells.js';

/** What a rule says; the rest of a finding follows from where it stands. */
export interface Said {
  readonly headline: string;
  readonly detail: string;
  readonly advice: string;
  readonly severity?: RawFinding['severity'];
  readonly related?: RawFinding['related'];
  readonly fixes?: RawFinding['fixes'];
}

/** A finding on a cell: the first of those that it is about. */
export function onCell(cell: ResolvedCell, said: Said): RawFinding {
  return {
    ...said,
    place: cell.place,
    client: cell.client.key,
    cell,
    related: said.related ?? [],
    fixes: said.fixes ?? [],
  };
}

/** A finding on a line of a client, or on a part of the program that she follows. */
export function onLine(plan: BlockPlan, place: Place, said: Said, scope?: RawFinding['scope']): RawFinding {
  return {
    ...said,
    place,
    client: plan.client.key,
    cell: null,
    ...(scope ? { scope } : {}),
    related: said.related ?? [],
    fixes: said.fixes ?? [],
  };
}

/** One finding for each row that has a group which `test` accepts, on the first such cell. */
export function eachRow(
  plan: BlockPlan,
  test: (group: ResolvedGroup, cell: ResolvedCell) => boolean,
  tell: (cells: readonly ResolvedCell[], group: ResolvedGroup) => Said,
): RawFinding[] {
  const findings: RawFinding[] = [];
  for (const run of rowRuns(plan)) {
    const found = cellsWhere(run.cells, test);
    const first = found[0];
    if (first)
      findings.push(
        onCell(
          first.cell,
          tell(
            found.map(({ cell }) => cell),
            first.group,
          ),
        ),
      );
  }
  return findings;
}
