import { daysBetween } from '../dates.js';
import { daysAway } from '../resolve/calendar.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

/** Absences from this length on ask for a lighter return. */
const LONG_DAYS = 14;
/** From this length on for a return in two steps, and beyond the next for a new sign-off. */
const LONGER_DAYS = 28;
const LONGEST_DAYS = 56;

function adviceFor(days: number): { readonly text: string; readonly back: string } {
  if (days > LONGEST_DAYS)
    return {
      text: 'Start over lightly and sign the patterns off again before loading.',
      back: 'back at 60% 70% 80% 90%',
    };
  if (days >= LONGER_DAYS)
    return {
      text: 'Take about 20 % off, leave four in reserve and do half the sets in the first week.',
      back: 'back at 80% 90%',
    };
  return {
    text: 'Take about 10 % off and leave one more in reserve in the first week.',
    back: 'back at 90%',
  };
}

const files = (back: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 47.5kg x5 r2, 2026-11-30
  away: 2026-12-12 to 2026-12-27${back}
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 3 weeks
day Lower
  box squat: 3x8 r3`,
  );

export const backTooFast: Rule = {
  code: 'back-too-fast',
  title: 'A return that starts where it stopped',
  severity: 'warning',
  what: 'After two weeks away or more, the first session back uses the full target.',
  why: 'Tissue loses tolerance sooner than the max falls. The first week back is when people get very sore or hurt.',
  source:
    'General reviews: strength is held about 3 to 4 weeks and then falls (from memory); older women lost functional gains within a month off (e-jer.org 2013600431, abstract). The steps of 10 and 20 % are common practice, no source.',
  example: files(''),
  better: files(', back at 90%'),
  fix: 'Say how the client comes back: "away: DATE to DATE, back at 80% 90%". The quick fix adds it.',
  caution:
    'After illness, surgery, pregnancy or injury a qualified professional decides when and how to start again.',
  checkPlan(plan) {
    const findings: RawFinding[] = [];
    for (const away of plan.client.aways) {
      const days = daysAway(away);
      if (days < LONG_DAYS || away.backShares.length > 0) continue;
      const trained = plan.sessions.some((session) => session.date < away.from);
      const first = plan.sessions.find((session) => session.date > away.to);
      if (!trained || !first || daysBetween(away.to, first.date) > 7) continue;
      if (!first.cells.some((cell) => cell.groups.some((group) => group.loadKg !== null))) continue;
      const { text, back } = adviceFor(days);
      const end = away.place.span.end;
      findings.push(
        onLine(plan, away.place, {
          headline: 'The first week back starts where it stopped.',
          detail: `${plan.client.name}: ${countOf(days, 'day')} away, back on ${first.date} (week ${first.week} of "${first.block.name}") with full targets.`,
          advice: `${text} For example "${back}".`,
          fixes: away.keepDates
            ? []
            : [
                {
                  title: `Add "${back}"`,
                  safe: false,
                  edits: [{ file: away.place.file, span: { start: end, end }, newText: `, ${back}` }],
                },
              ],
        }),
      );
    }
    return findings;
  },
};
