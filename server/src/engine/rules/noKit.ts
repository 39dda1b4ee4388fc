import { say } from '../../../../grammar/say.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

/** With more kits than this the coach had better type the name. */
const MOST_OFFERS = 3;

const sessionsWithout = perSession(({ cells }) =>
  cells.some(({ groups }) => groups.some(({ issue }) => issue === 'no-kit')) ? true : null,
);

const files = (client: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    client,
    `program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 r3`,
  );

export const noKit: Rule = {
  code: 'no-kit',
  title: 'Nowhere to train',
  severity: 'warning',
  what: 'A session needs equipment, and no "trains at:" line of the client covers its day.',
  why: 'Without a kit it is not known which loads exist, so none is given.',
  source: 'Part of the notation, no source needed.',
  example: files(`client Heron
  ready: load squat 2026-06-01
  max: box squat, 40kg x8 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`),
  better: files(`client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 40kg x8 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`),
  fix: 'Say where the client trains: "trains at: KIT", with "on tue" or "from DATE" where it changes. Where she trains nowhere yet, the quick fix writes the line for each kit that there is.',
  checkPlan(plan, world, context) {
    const { client } = plan;
    const sessions = sessionsWithout(plan, context);
    const first = sessions[0]?.session;
    if (!first) return [];
    const finding: RawFinding = {
      place: client.place,
      headline: say('It is not known where this client trains.'),
      detail: say`${client.name}: no kit on ${first.date}${sessions.length > 1 ? say` and in ${countOf(sessions.length - 1, 'more session')}` : ''}, so loads stay blank.`,
      advice: say('Add a line "trains at: KIT".'),
      client: client.key,
      cell: null,
      related: [],
      // Where she trains on other days already, only the coach knows the days of each place.
      fixes:
        client.trainsAt.length > 0
          ? []
          : fixesOf(
              ...[...world.kits.values()]
                .slice(0, MOST_OFFERS)
                .map(({ name }) =>
                  addClientLine(client, `trains at: ${name}`, say`${client.name} trains at ${name}`),
                ),
            ),
    };
    return [finding];
  },
};
