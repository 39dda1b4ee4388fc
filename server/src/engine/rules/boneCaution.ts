import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { fixesOf, screeningForm } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

const BONE = new Set(['osteopenia', 'osteoporosis']);

/** Heavy by its load, or a movement that is heavy whatever the dose (drop landings). */
function isHeavy(cell: ResolvedCell): boolean {
  if (cell.movement?.stage === 'heavy' && cell.groups.length > 0) return true;
  return cell.groups.some(isHeavyWork);
}

/** Hops, drops and jumps of any stage, heel drops too. */
function isImpact({ movement, groups }: ResolvedCell): boolean {
  return movement?.pattern === 'jump' && groups.length > 0;
}

const files = (supervised: string) =>
  workspace(
    BOATHOUSE,
    clientLines(
      'Heron',
      [
        'condition: osteoporosis',
        'screened: 2026-11-01',
        'ready: heavy squat 2026-06-01',
        'max: back squat, 47.5kg x5 r2, 2026-11-30',
      ],
      `mon${supervised}`,
    ),
    winter('Keel, 2 weeks', { Lower: ['back squat: 3x5 r2'] }),
  );

export const boneCaution: Rule = {
  code: 'bone-caution',
  title: 'Heavy work or impact with thin bones',
  severity: 'warning',
  what: 'A client with osteopenia or osteoporosis has heavy work in sessions that are not marked supervised, or without a screening; or impact of any kind (hops, drops, jumps, heel drops too) without a screening.',
  why: 'Heavy work has helped bone in a trial, but under the eyes of clinicians and with screened people. It is no licence to do so alone.',
  source:
    'LIFTMOR: Watson et al., J Bone Miner Res 2018;33(2):211-220: 5 sets of 5 reps at more than 80 to 85 %, twice weekly, supervised, in 101 screened women, with drop landings for impact. That impact of the lowest level asks for a screening too is common practice, no source.',
  example: files(''),
  better: files(', supervised'),
  fix: 'Have the client screened, and mark the "follows:" line "supervised" when somebody qualified is there. Otherwise stay below heavy. For a client without a screening the quick fix adds a line to fill in, as a note, so that no date is invented; that somebody is there, only the coach can say.',
  caution:
    'A qualified professional decides whether, how heavy and how to bend. Loaded flexion of the spine is to be discussed with her. Local rules prevail.',
  checkPlan(plan) {
    const { client } = plan;
    const condition = client.conditions.find(({ name }) => BONE.has(name));
    if (!condition) return [];
    const heavy: ResolvedCell[] = [];
    const impact: ResolvedCell[] = [];
    for (const session of plan.sessions) {
      const screened = client.screened !== null && client.screened <= session.date;
      if (!screened) impact.push(...session.cells.filter(isImpact));
      if (session.supervised && screened) continue;
      heavy.push(...session.cells.filter((cell) => isHeavy(cell) && (screened || !isImpact(cell))));
    }
    const tell = (cells: readonly ResolvedCell[], headline: string, advice: string): RawFinding[] => {
      const first = cells[0];
      if (!first) return [];
      return [
        onLine(plan, condition.place, {
          headline,
          detail: say`${client.name}: ${movementText(first)} on ${first.date}${cells.length > 1 ? say`, and ${cells.length - 1} more` : ''}.`,
          advice,
          fixes: fixesOf(screeningForm(client)),
          related: [{ place: first.place, message: say`${movementText(first)} on ${first.date}.` }],
        }),
      ];
    };
    return [
      ...tell(
        heavy,
        say`Heavy work with ${condition.name}, not supervised or not screened.`,
        say(
          'Let a qualified professional decide. Mark the sessions "supervised" and write "screened: DATE", or stay below heavy.',
        ),
      ),
      ...tell(
        impact,
        say`Impact with ${condition.name}, not screened.`,
        say(
          'Let a qualified professional screen first and write "screened: DATE", or leave hops, drops and jumps out.',
        ),
      ),
    ];
  },
};
