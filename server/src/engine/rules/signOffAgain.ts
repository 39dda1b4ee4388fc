import type { PatternName, StageName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { addDays } from '../dates.js';
import type { ClientPlan, FindingFix, ResolvedCell, SignOff } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { stageAllows } from '../stages.js';
import { effortUnknown } from './shared/cells.js';
import { type Return, returnsOf } from './shared/comeback.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { countOf, listOf, movementText } from './shared/words.js';

const CODE = 'sign-off-again';
const AWAY_DAYS: RuleOption = {
  key: 'awayDays',
  default: 56,
  least: 21,
  most: 365,
  what: 'days away beyond which a sign-off from before counts no more',
};

/** Load and heavy work of one pattern after an absence, and the sign-off from before it that it rests on. */
interface Resting {
  readonly pattern: PatternName;
  readonly stage: StageName;
  readonly signOff: SignOff;
  readonly cells: readonly ResolvedCell[];
}

/** Work above `learn` after an absence that rests on a sign-off from before it, by pattern. */
function onOldSignOffs(plan: ClientPlan, { away }: Return): readonly Resting[] {
  const found = new Map<SignOff, Map<PatternName, Resting & { cells: ResolvedCell[] }>>();
  for (const cell of plan.sessions.flatMap(({ date, cells }) => (date > away.to ? cells : []))) {
    const pattern = cell.movement?.pattern;
    if (!pattern) continue;
    const { stage, signOff } = readinessOn(plan.client, pattern, cell.date);
    if (signOff === null || signOff.date > away.to) continue;
    const above = cell.groups.some(
      (group) => group.stage !== 'learn' && !effortUnknown(group) && stageAllows(stage, group.stage),
    );
    if (!above) continue;
    const ofSignOff = found.get(signOff) ?? new Map<PatternName, Resting & { cells: ResolvedCell[] }>();
    found.set(signOff, ofSignOff);
    const known = ofSignOff.get(pattern);
    if (known) known.cells.push(cell);
    else ofSignOff.set(pattern, { pattern, stage, signOff, cells: [cell] });
  }
  return [...found.values()].flatMap((ofSignOff) => [...ofSignOff.values()]);
}

/** `box squat, 2 times from 2027-02-22 on (signed off for load in squat on 2026-06-01)`. */
function restingText({ pattern, stage, signOff, cells }: Resting): string {
  const names = [...new Set(cells.map(movementText))];
  const first = (cells[0] as ResolvedCell).date;
  const when = cells.length === 1 ? say`on ${first}` : say`${cells.length} times from ${first} on`;
  return say`${listOf(names)} ${when} (signed off for ${stage} in ${pattern} on ${signOff.date})`;
}

/** Takes every sign-off back to `learn`, so that the rules on stages say what each row asks for. */
function takeBack(plan: ClientPlan, { away }: Return): FindingFix | null {
  const date = addDays(away.to, 1);
  return addClientLine(
    plan.client,
    `ready: learn all ${date}`,
    say`${plan.client.name}: back to "learn" in all patterns on ${date}, until they are signed off again`,
  );
}

const files = (ready: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01${ready}
  max: box squat, 47.5kg x5 r2, 2026-11-30
  away: 2026-12-12 to 2027-02-21, back at 60% 70% 80% 90%
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 3 weeks
day Lower
  box squat: 3x8 r3`,
  );

export const signOffAgain: Rule = {
  code: CODE,
  title: 'A sign-off from before a long absence',
  severity: 'warning',
  options: [AWAY_DAYS],
  what: 'After more than eight weeks away, load or heavy work rests on a sign-off from before the absence.',
  why: 'A sign-off says that somebody has seen the movement done well, by the person as she was then. After two months without training it is to be seen again.',
  source: 'Common practice, no source.',
  example: files(''),
  better: files(', load squat 2027-02-22'),
  fix: 'Have the movements seen again and write a new sign-off, for example "ready: load squat DATE". The quick fix takes every sign-off back to "learn" on the first day back, so that the rules on stages name each row that has to wait.',
  caution:
    'After illness, surgery, pregnancy or injury a qualified professional decides when and how to start again. Screening comes first where health has changed.',
  checkPlan(plan, _world, context) {
    const least = context.option(CODE, AWAY_DAYS) + 1;
    return returnsOf(plan, least).flatMap((back): RawFinding[] => {
      const resting = onOldSignOffs(plan, back);
      const [first] = resting;
      if (!first) return [];
      const { away, days } = back;
      const weeks = countOf(Math.floor(days / 7), 'week');
      return [
        onLine(plan, away.place, {
          headline: say('The plan after a long absence rests on sign-offs from before it.'),
          detail: say`${plan.client.name} is away for ${weeks}, from ${away.from} to ${away.to}. Above the stage "learn" comes after it: ${listOf(resting.map(restingText))}.`,
          advice: say`See these movements done again first, then write what you saw, for example "ready: ${first.stage} ${first.pattern} DATE". Until then plan learning work, such as 3 × 10 with 5 in reserve.`,
          related: resting.map(({ signOff, pattern }) => ({
            place: signOff.place,
            message: say`The sign-off from before, in ${pattern}.`,
          })),
          fixes: fixesOf(takeBack(plan, back)),
        }),
      ];
    });
  },
};
