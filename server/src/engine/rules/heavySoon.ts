import { say } from '../../../../grammar/say.js';
import { daysBetween, partialToDate } from '../dates.js';
import type { ClientPlan, ResolvedCell } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf, movementText } from './shared/words.js';

const CODE = 'heavy-soon';
const MIN_WEEKS: RuleOption = {
  key: 'minWeeks',
  default: 24,
  least: 0,
  most: 104,
  what: 'weeks of training before the first heavy work',
};

function firstHeavy(plan: ClientPlan): ResolvedCell | null {
  for (const session of plan.sessions) {
    const cell = session.cells.find((each) => each.groups.some(isHeavyWork));
    if (cell) return cell;
  }
  return null;
}

const files = (since: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      `lifting since: ${since}`,
      'ready: heavy squat 2026-11-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', { Lower: ['back squat: 3x5 r2'] }),
  );

export const heavySoon: Rule = {
  code: CODE,
  title: 'Heavy within half a year of the first session',
  severity: 'info',
  options: [MIN_WEEKS],
  what: 'The first heavy work comes within 24 weeks of "lifting since". A note only: the sign-off is what counts.',
  why: 'Tendon and bone take longer than muscle to get used to load.',
  source: 'Common practice, no source: six to eight months from the first session to heavy work.',
  example: files('2026-09-01'),
  better: files('2025-09'),
  fix: 'Look again at whether it is time, and allow it with a reason if it is.',
  noFix: 'that it is time, only somebody who has seen the movement can say.',
  caution: 'The calendar opens no stage, and closes none. Whoever signs off decides.',
  checkPlan(plan, _world, context) {
    const weeks = context.option(CODE, MIN_WEEKS);
    const { client } = plan;
    const since = client.liftingSince === null ? null : partialToDate(client.liftingSince);
    const cell = since === null ? null : firstHeavy(plan);
    if (since === null || !cell) return [];
    const days = daysBetween(since, cell.date);
    if (days >= weeks * 7) return [];
    const finding: RawFinding = onLine(plan, client.place, {
      headline: say`The first heavy work comes within ${countOf(weeks, 'week')} of the first session.`,
      detail: say`${client.name}: lifting since ${client.liftingSince}, heavy ${movementText(cell)} on ${cell.date}, ${countOf(Math.max(0, Math.floor(days / 7)), 'week')} on.`,
      advice: say(
        'Six to eight months are usual. Look again at whether it is time; if it is, allow it with the reason.',
      ),
      related: [{ place: cell.place, message: say`${movementText(cell)} on ${cell.date}.` }],
    });
    return [finding];
  },
};
