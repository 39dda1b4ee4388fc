import { say } from '../../../../grammar/say.js';
import { formatPercent } from '../numbers.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { prilepinCounts } from '../science/volume.js';
import { writeSets } from './shared/cellFixes.js';
import { rowRuns } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 2 weeks', { Lower: [row] }),
  );

export const prilepinRange: Rule = {
  code: 'prilepin-range',
  title: 'Reps above the range of Prilepin’s table (contested)',
  severity: 'off',
  what: 'The barbell sets of a row in one session have more repetitions at a share of the max than the upper end of Prilepin’s table: 30 from 55 %, 24 from 70 %, 20 from 80 %, 10 above 90 %. Deload weeks and tests do not count. Off by default; contested outside of weightlifting.',
  why: 'Past these numbers lifters’ speed and technique fell off. It is a second opinion on a day that looks like much.',
  source:
    'Table attributed to A. S. Prilepin, 1974-75, from the logs of weightlifters, as quoted by McCullough; the Russian original was not seen. Made for the snatch and the clean and jerk of elite lifters; contested for any other lift and lifter. Its bands leave gaps; here a band reaches up to the next.',
  example: files('back squat: 8x5 80%'),
  better: files('back squat: 4x4 80%'),
  fix: 'Write fewer sets, or spread them over two days. The quick fix writes as many sets as the table has, where the row is one plain dose.',
  checkBlock: (plan) =>
    rowRuns(plan).flatMap((run): RawFinding[] => {
      const cells = run.cells.filter(
        (cell) =>
          !cell.deload &&
          cell.test === null &&
          cell.movement?.implement.kind === 'barbell' &&
          prilepinCounts([cell]).some(({ judged }) => judged === 'above'),
      );
      const first = cells[0];
      const count = first && prilepinCounts([first]).find(({ judged }) => judged === 'above');
      if (!first || !count) return [];
      const { zone, reps } = count;
      const [group] = first.groups;
      const perSet = (group?.reps ?? 0) * (first.perSide ? 2 : 1);
      return [
        onCell(first, {
          headline: say`${movementText(first)}: more reps than Prilepin’s table has for such loads.`,
          detail: say`${plan.client.name}: ${reps} reps from ${formatPercent(zone.fromShare, 0)} of the max on, ${spanText(cells)}; the table has ${zone.range[0]} to ${zone.range[1]}.`,
          advice: say(
            'Fewer sets, or two days. Contested: the table was made for the snatch and the clean and jerk of elite lifters.',
          ),
          fixes: fixesOf(
            group && perSet > 0 && first.groups.length === 1
              ? writeSets(first, group, Math.floor(zone.range[1] / perSet))
              : null,
          ),
        }),
      ];
    }),
};
