import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { rowRuns } from './shared/cells.js';
import { fixesOf, swapAtKit } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { clientLines, winter, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

/** Heights that the machine of a cell fits, where the client is outside of them; else null. */
function misfit(cell: ResolvedCell): readonly [number, number] | null {
  const implement = cell.movement?.implement;
  const { heightCm } = cell.client;
  if (implement?.kind !== 'machine' || heightCm === null || cell.kit === null) return null;
  const { machines } = cell.kit.model;
  const fits = Object.hasOwn(machines, implement.key) ? machines[implement.key]?.fitsCm : null;
  if (!fits || (heightCm >= fits[0] && heightCm <= fits[1])) return null;
  return fits;
}

const files = (fits: string) =>
  workspace(
    `kit Boathouse
  machine leg press: 20kg to 120kg by 5kg, fits ${fits}`,
    `movement leg press
  pattern: squat
  with: machine leg press`,
    clientLines('Heron', [
      'height: 158cm',
      'ready: load squat 2026-06-01',
      'max: leg press, 60kg x8 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', { Lower: ['leg press: 2x8 r3'] }),
  );

export const machineFit: Rule = {
  code: 'machine-fit',
  title: 'A machine that does not fit',
  severity: 'warning',
  what: 'A row uses a machine whose "fits" heights do not include the height of the client.',
  why: 'On a machine that is too large the joints are not where its axis is, and the movement is loaded where it was not meant.',
  source:
    'The heights are what the kit says. In NHANES 2003 to 2006, 95 % of women in the US were under 173.2 cm (NHSR 10, 2008), so that machines made for tall people fit few of them.',
  example: files('165cm to 190cm'),
  better: files('150cm to 190cm'),
  fix: 'Swap the movement for this client, or correct the heights after having tried the machine. Where an easier movement is known, the quick fix writes the "swap:" line.',
  checkBlock(plan, world) {
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const cells = run.cells.filter((cell) => misfit(cell) !== null);
      const first = cells[0];
      const fits = first && misfit(first);
      if (!first || !fits) continue;
      findings.push(
        onCell(first, {
          headline: say`${movementText(first)}: the machine does not fit everybody who follows this.`,
          detail: say`${plan.client.name} is ${plan.client.heightCm} cm tall, it fits ${fits[0]} to ${fits[1]} cm; ${spanText(cells)}.`,
          advice: say('Swap the movement for this client.'),
          fixes: fixesOf(swapAtKit(world, cells, say('the machine does not fit'))),
          related: first.kit ? [{ place: first.kit.place, message: say`The kit "${first.kit.name}".` }] : [],
        }),
      );
    }
    return findings;
  },
};
