import { say } from '../../../../grammar/say.js';
import { addDays, daysBetween } from '../dates.js';
import type { Client, ClientPlan, Place, ResolvedCell, Session } from '../model.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { cellsOf } from './shared/cells.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { needsScreening } from './shared/readiness.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf, listOf, movementText } from './shared/words.js';

/** Also what the roster goes by. */
export const SCREENING_CODE = 'screening-old';
export const VALID_DAYS: RuleOption = {
  key: 'validDays',
  default: 365,
  least: 30,
  most: 365,
  what: 'days for which a screening counts',
};
const AHEAD_DAYS: RuleOption = {
  key: 'aheadDays',
  default: 28,
  least: 0,
  most: 365,
  what: 'days ahead of which it is told that a screening runs out',
};
/** So many movements are named. */
const MOST_NAMED = 3;

/** The newest day on which the screening counts. */
function lastDay(screened: string, context: RuleContext): string {
  return addDays(screened, context.option(SCREENING_CODE, VALID_DAYS));
}

/** Sessions longer ago than this are history: a screening cannot be made up for. */
const DAYS_BACK = 7;

/**
 * Sessions after the screening has run out, as far ahead as it is told: in a plan for a year that day always comes.
 * Where today is not known, the plan is looked at as on its first day.
 */
function sessionsAfter({ sessions }: ClientPlan, until: string, context: RuleContext): readonly Session[] {
  const today = context.today ?? sessions[0]?.date ?? '';
  const ahead = today === '' ? '' : addDays(today, context.option(SCREENING_CODE, AHEAD_DAYS));
  return sessions.filter(
    ({ date }) => date > until && date <= ahead && daysBetween(date, today) <= DAYS_BACK,
  );
}

function lineOf(client: Client): Place {
  for (const { file, node } of client.nodes)
    for (const line of node.lines) if (line.kind === 'screened') return { file, span: line.span };
  return client.place;
}

function findingOf(plan: ClientPlan, screened: string, until: string, context: RuleContext): RawFinding[] {
  const sessions = sessionsAfter(plan, until, context);
  const first = sessions[0];
  if (!first) return [];
  const { client } = plan;
  const impact = cellsOf(sessions).filter(needsScreening);
  const days = context.option(SCREENING_CODE, VALID_DAYS);
  return [
    onLine(plan, lineOf(client), {
      headline: say('A health screening runs out, and the plan goes on.'),
      detail: say`${client.name} was screened on ${screened}, which counts for ${days === 365 ? say('a year') : countOf(days, 'day')}, until ${until}. The first session after it is on ${first.date}${impactText(impact)}.`,
      advice: adviceFor(impact),
      fixes: fixesOf(
        addClientLine(
          client,
          say(
            '-- screened: DATE -- fill in the day of the new screening, take the first two dashes away, and the old line out',
          ),
          say`${client.name}: add a line to fill in once she is screened again`,
        ),
      ),
      related: impact
        .slice(0, 1)
        .map((cell) => ({ place: cell.place, message: say`${movementText(cell)} on ${cell.date}.` })),
      ...(impact.length > 0 ? { severity: 'warning' as const } : {}),
    }),
  ];
}

function impactText(impact: readonly ResolvedCell[]): string {
  const names = [...new Set(impact.map(movementText))];
  return names.length === 0 ? '' : say`, and ${listOf(names.slice(0, MOST_NAMED))} is among what is planned`;
}

function adviceFor(impact: readonly ResolvedCell[]): string {
  const meanwhile = impact.length > 0 ? say(' Until then leave impact and all-out work out.') : '';
  return say`Have a qualified professional screen again, then write the new "screened: DATE".${meanwhile}`;
}

const files = (screened: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      `screened: ${screened}`,
      'ready: load squat 2026-06-01',
      'max: back squat, 40kg x8 r2, 2026-11-23',
    ]),
    winter('Keel, 2 weeks', { Lower: ['back squat: 3x8 r3'] }),
  );

export const screeningOld: Rule = {
  code: SCREENING_CODE,
  title: 'A screening that is more than a year old',
  severity: 'info',
  options: [VALID_DAYS, AHEAD_DAYS],
  what: 'Somebody who follows a program has sessions later than a year after her "screened:" date. Told from four weeks before on. Information; a warning where jumps, sprints or intervals above the stage learn are planned then.',
  why: 'Health changes over a year, in older people more than in others, and nobody tells the plan. Asking again once a year finds it.',
  source:
    'PAR-Q+ is valid for 12 months or until health changes (from memory). ACSM screening model (Riebe et al., Med Sci Sports Exerc 2015;47(11):2473-2479): activity, known disease or symptoms, and intended intensity. Four weeks ahead: common practice, no source.',
  example: files('2025-11-01'),
  better: files('2026-11-01'),
  fix: 'Have the client screened again, then write the new date in place of the old one. The quick fix adds a line to fill in, as a note, so that no date is invented.',
  caution:
    'A change of health ends a screening at once, whatever its date. A qualified professional decides; local rules prevail.',
  checkPlan(plan, _world, context) {
    const { screened } = plan.client;
    return screened === null ? [] : findingOf(plan, screened, lastDay(screened, context), context);
  },
};
