import type { CellNode, Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { FindingFix, ResolvedCell, Session } from '../model.js';
import type { BlockPlan, RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { fixesOf } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { listOf, movementText } from './shared/words.js';

const CODE = 'tests-crowded';
const MOST_TESTS: RuleOption = {
  key: 'mostTests',
  default: 1,
  least: 1,
  most: 6,
  what: 'most movements that are tested on one day',
};

/**
 * Moves a test to the next week of its row, or the one before, where nothing is written for that week and its session
 * of this day has no test. Null where there is none, or the cell says more than the test.
 */
function moveTest(plan: BlockPlan, cell: ResolvedCell): FindingFix | null {
  const { row, block } = cell;
  const { cells } = row.node;
  const at = cells.findIndex(({ index }) => index === cell.cellIndex);
  const written = cells[at];
  const [item, ...more] = written?.groups.flatMap(({ items }) => items) ?? [];
  if (!written || item?.kind !== 'test' || more.length > 0) return null;
  // `wk5` moves what follows, so that cells and weeks do not run side by side.
  if (cells.some(({ groups }) => groups.some(({ items }) => items.some(({ kind }) => kind === 'week'))))
    return null;
  const isFree = (week: number): boolean => {
    const session = plan.sessions.find(
      (each) => each.week === week && each.day === cell.day && each.program === cell.program,
    );
    return session !== undefined && !session.deload && testsOf(session).length === 0;
  };
  const text = row.text.slice(item.span.start - row.place.span.start, item.span.end - row.place.span.start);
  for (const step of [1, -1]) {
    const week = cell.week + step;
    const target = cells[at + step];
    if (week < 2 || week > block.weeks || !isFree(week)) continue;
    const edits = target
      ? emptyCellEdits(target, item.span, text)
      : // The row ends with the test: one more cell follows.
        step === 1 && [{ span: item.span, newText: `| ${text}` }];
    if (!edits) continue;
    return {
      title: say`Test ${movementText(cell)} in week ${week} instead`,
      safe: false,
      edits: edits.map((edit) => ({ file: row.place.file, ...edit })),
    };
  }
  return null;
}

type Edit = Omit<FindingFix['edits'][number], 'file'>;

/** Takes the test out of its cell and writes it into another; null where something stands there. */
function emptyCellEdits(target: CellNode, from: Span, text: string): readonly Edit[] | null {
  if (target.broken || target.groups.length > 0) return null;
  return [
    { span: from, newText: '' },
    { span: target.span, newText: ` ${text} ` },
  ];
}

function testsOf({ cells }: Session): readonly ResolvedCell[] {
  return cells.filter((cell) => cell.test !== null);
}

const files = (second: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'ready: heavy all 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
      'max: overhead press, 22.5kg x6 r2, 2026-11-30',
    ]),
    winter('Keel, 3 weeks', {
      Lower: ['back squat: 3x6 r2 | test x5', `overhead press: 3x6 r2 | ${second}`],
    }),
  );

export const testsCrowded: Rule = {
  code: CODE,
  title: 'Two tests on one day',
  severity: 'info',
  options: [MOST_TESTS],
  what: 'A session tests more than one movement.',
  why: 'The second test is done tired. Its max comes out too low, or somebody forces it.',
  source:
    'NSCA testing steps rest 2 to 4 minutes between attempts and reach the max within 3 to 5 sets (Haff & Triplett, Essentials, 4th ed., 2016, from memory); one test a session is common practice, no source.',
  example: files('test x5'),
  better: files('| test x5'),
  fix: 'Move one of the tests to another day or week. The quick fix moves one to the next week or the one before, where that week has nothing written and no test.',
  checkBlock: (plan, _world, context) =>
    plan.sessions.flatMap((session): RawFinding[] => {
      const most = context.option(CODE, MOST_TESTS);
      const tests = testsOf(session);
      const second = tests[most];
      if (!second) return [];
      return [
        onCell(second, {
          headline:
            most === 1 ? say('More than one test on one day.') : say`More than ${most} tests on one day.`,
          detail: say`${plan.client.name}: ${listOf(tests.map(movementText))} on ${session.date} (week ${session.week}).`,
          advice: say('Move one of them to another day.'),
          fixes: fixesOf(
            [second, ...tests].reduce<FindingFix | null>((fix, cell) => fix ?? moveTest(plan, cell), null),
          ),
        }),
      ];
    }),
};
