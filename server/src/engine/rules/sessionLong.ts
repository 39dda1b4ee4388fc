import { say } from '../../../../grammar/say.js';
import type { FindingFix, ResolvedCell, Session } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { sessionTime } from '../science/duration.js';
import { setsEdit } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

const CODE = 'session-long';
const MAX_MINUTES: RuleOption = {
  key: 'maxMinutes',
  default: 90,
  least: 15,
  most: 240,
  what: 'most minutes of a session, without warm-up',
};

/** No row comes to fewer sets than this. */
const LEAST_SETS = 2;

function withMostSets(cells: readonly ResolvedCell[], most: number): readonly ResolvedCell[] {
  return cells.map((cell) => ({
    ...cell,
    groups: cell.groups.map((group) =>
      group.sets !== null && group.sets > most ? { ...group, sets: most } : group,
    ),
  }));
}

/** The most sets that a row may have for the sessions to fit; null where not even two fit, or they are not written here. */
function fewerSets(sessions: readonly Session[], mostMinutes: number): FindingFix | null {
  const written = Math.max(
    ...sessions.flatMap(({ cells }) => cells.flatMap(({ groups }) => groups.map(({ sets }) => sets ?? 0))),
  );
  for (let sets = written - 1; sets >= LEAST_SETS; sets -= 1) {
    const fits = sessions.every(
      ({ cells }) => sessionTime(withMostSets(cells, sets)).seconds / 60 <= mostMinutes,
    );
    if (!fits) continue;
    const edits = new Map<string, FindingFix['edits'][number]>();
    for (const cell of sessions.flatMap(({ cells }) => cells)) {
      for (const group of cell.groups) {
        const edit = setsEdit(cell, group, sets);
        if (edit) edits.set(`${edit.file} ${edit.span.start}`, edit);
      }
    }
    if (edits.size === 0) return null;
    return { title: say`At most ${sets} sets in a row of this day`, safe: false, edits: [...edits.values()] };
  }
  return null;
}

const files = (rows: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'ready: heavy all 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
      'max: bench press, 35kg x5 r2, 2026-11-30',
      'max: deadlift, 60kg x5 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', { Whole: rows }),
  );

export const sessionLong: Rule = {
  code: CODE,
  title: 'A session that takes very long',
  severity: 'info',
  options: [MAX_MINUTES],
  what: 'The sets of a session with their rests take more than 90 minutes: sets × (work + rest), four seconds a rep or the tempo that is written, 90 seconds of rest where none is. Warm-up, changing plates and talk come on top.',
  why: 'What does not fit into the hour that she has is left out, and it is the end of the session that goes: the same rows each time.',
  source: 'Common practice, no source.',
  example: files([
    'back squat: 8x5 r2 rest 4min',
    'deadlift: 8x5 r2 rest 4min',
    'bench press: 8x5 r2 rest 4min',
  ]),
  better: files(['back squat: 5x5 r2 rest 3min', 'bench press: 5x5 r2 rest 3min']),
  fix: 'Take sets or a row out, move a row to another day, or shorten the rests of light work. The quick fix writes fewer sets in the rows that have the most, as many as fit into the time, and no fewer than two.',
  checkBlock(plan, _world, context) {
    const most = context.option(CODE, MAX_MINUTES);
    const found = new Map<string, { readonly first: Session; readonly minutes: number; all: Session[] }>();
    for (const session of plan.sessions) {
      const minutes = sessionTime(session.cells).seconds / 60;
      if (minutes <= most) continue;
      // One day of a block is one cause, in however many weeks.
      const key = JSON.stringify([session.program.key, session.block.key, session.day.key]);
      const known = found.get(key);
      if (known) known.all.push(session);
      else found.set(key, { first: session, minutes, all: [session] });
    }
    return [...found.values()].map(({ first, minutes, all }): RawFinding => {
      const { program, block, day } = first;
      const count = all.length;
      return onLine(
        plan,
        day.place,
        {
          headline: say`"${day.name}" of "${block.name}" takes more than ${formatNumber(most)} minutes.`,
          detail: say`${plan.client.name}: about ${formatNumber(minutes, 0)} min without warm-up on ${first.date} (week ${first.week})${count > 1 ? say`, and ${countOf(count - 1, 'more session')}` : ''}.`,
          advice: say('Take sets or a row out, or move a row to another day.'),
          fixes: fixesOf(fewerSets(all, most)),
        },
        { program, block, day },
      );
    });
  },
};
