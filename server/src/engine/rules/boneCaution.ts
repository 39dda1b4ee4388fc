import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

const BONE = new Set(['osteopenia', 'osteoporosis']);

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
  title: 'Heavy work with thin bones, unsupervised',
  severity: 'warning',
  what: 'A client with osteopenia or osteoporosis has heavy work in sessions that are not marked supervised, or without a screening.',
  why: 'Heavy work has helped bone in a trial, but under the eyes of clinicians and with screened people. It is no licence to do so alone.',
  source:
    'LIFTMOR: Watson et al., J Bone Miner Res 2018;33(2):211-220: 5 sets of 5 reps at more than 80 to 85 %, twice weekly, supervised, in 101 screened women.',
  example: files(''),
  better: files(', supervised'),
  fix: 'Have the client screened, and mark the "follows:" line "supervised" when somebody qualified is there. Otherwise stay below heavy.',
  caution:
    'A qualified professional decides whether, how heavy and how to bend. Loaded flexion of the spine is to be discussed with her. Local rules prevail.',
  checkPlan(plan) {
    const { client } = plan;
    const condition = client.conditions.find(({ name }) => BONE.has(name));
    if (!condition) return [];
    const open: ResolvedCell[] = [];
    for (const session of plan.sessions) {
      const screened = client.screened !== null && client.screened <= session.date;
      if (session.supervised && screened) continue;
      open.push(...session.cells.filter((cell) => cell.groups.some(isHeavyWork)));
    }
    const first = open[0];
    if (!first) return [];
    const finding: RawFinding = onLine(plan, condition.place, {
      headline: `Heavy work with ${condition.name}, not supervised or not screened.`,
      detail: `${client.name}: ${movementText(first)} on ${first.date}${open.length > 1 ? `, and ${open.length - 1} more` : ''}.`,
      advice:
        'Let a qualified professional decide. Mark the sessions "supervised" and write "screened: DATE", or stay below heavy.',
      related: [{ place: first.place, message: `${movementText(first)} on ${first.date}.` }],
    });
    return [finding];
  },
};
