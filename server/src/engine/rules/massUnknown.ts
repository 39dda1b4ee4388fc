import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { perSession, picked } from './shared/perSession.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { listOf, movementText } from './shared/words.js';

/** Cells whose load waits for the body mass. Without a max the answer is in reps anyway, and the mass changes nothing. */
const cellsWithout = perSession(({ cells }) =>
  picked(cells, ({ client, movement, groups }, number) =>
    groups.some(({ issue }) => issue === 'no-mass') &&
    client.maxes.some((max) => max.movement === movement?.key)
      ? number
      : null,
  ),
);

const files = (mass: string) =>
  workspace(
    BOATHOUSE,
    `movement push-up
  pattern: push
  with: bodyweight
  lifts: 65% of mass`,
    `client Heron
  ${mass}trains at: Boathouse
  ready: load push 2026-06-01
  max: push-up, bw x8 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Upper
  push-up: 3x6 r4`,
  );

export const massUnknown: Rule = {
  code: 'mass-unknown',
  title: 'Bodyweight work without a body mass',
  severity: 'warning',
  what: 'A movement lifts a share of body mass, and no "mass:" line of the client is known.',
  why: 'How hard a push-up or a pull-up is depends on what the client weighs. Without it the load is left blank.',
  source: 'Part of the notation, no source needed.',
  example: files(''),
  better: files('mass: 68kg, 2026-11-01\n  '),
  fix: 'Add a line "mass: 68kg, DATE" to the client. The quick fix adds one to fill in, as a note, so that no mass is invented.',
  checkPlan(plan, _world, context) {
    const found = cellsWithout(plan, context).flatMap(({ session, value }) =>
      value.map((number) => session.cells[number] as ResolvedCell),
    );
    const first = found[0];
    if (!first) return [];
    const { client } = plan;
    const names = [...new Set(found.map(movementText))];
    const finding: RawFinding = {
      place: client.place,
      headline: say('Body mass is not known.'),
      detail: say`${client.name}: the load of ${listOf(names)} stays blank from ${first.date}.`,
      advice: say('Add a line "mass: 68kg, DATE" with the mass that was measured.'),
      client: client.key,
      cell: null,
      related: [{ place: first.place, message: say`${movementText(first)} needs it.` }],
      fixes: fixesOf(
        addClientLine(
          client,
          say`-- mass: MASSkg, ${first.date} -- fill in what was measured and when, then take the first two dashes away`,
          say`${client.name}: add a mass line to fill in`,
        ),
      ),
    };
    return [finding];
  },
};
