import { later, said, say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

/** What a care line says when breathing has been thought of, in the languages that Stave speaks. */
const BREATH_WORDS = /breath|exhale|atem|atmen|respir|exhal|aliento/i;
const CARE = later('Breathe out on the effort. Never hold your breath under load.');
const CONDITIONS = new Set(['high blood pressure', 'heart condition']);
const CODE = 'pressure-caution';
const HOLD_SECONDS: RuleOption = {
  key: 'holdSeconds',
  default: 20,
  least: 5,
  most: 300,
  what: 'seconds that a hold may last before it counts as long',
};

function raisesPressure(cell: ResolvedCell, longSeconds: number): boolean {
  if (cell.groups.some(isHeavyWork)) return true;
  const isHold = cell.movement?.pattern === 'brace';
  return isHold && cell.groups.some(({ seconds }) => seconds !== null && seconds > longSeconds);
}

const files = (care: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Dunlin', ['condition: high blood pressure', ...care]),
    winter('Keel, 2 weeks', { Whole: ['front plank: 2x40s'] }),
  );

export const pressureCaution: Rule = {
  code: CODE,
  title: 'Heavy work or long holds with high blood pressure',
  severity: 'info',
  options: [HOLD_SECONDS],
  what: 'A client with high blood pressure or a heart condition has heavy work or holds of more than 20 seconds, and no "care:" line speaks of breathing.',
  why: 'Holding the breath against a load drives blood pressure up steeply for a moment.',
  source:
    'ACSM stop signs for exercise (jssm.org suppl. 7, adapted from ACSM 2000) name pressure limits for monitored tests; that the breath is not held under load with high blood pressure is common practice, no source.',
  example: files([]),
  better: files(['care: "Breathe out on the way up, never hold the breath."']),
  fix: 'Add a "care:" line on breathing, or leave the work out. The quick fix adds the line; it does not stand in for the doctor.',
  caution:
    'A doctor decides about exercise with high blood pressure or a heart condition. Stop at chest discomfort, dizziness, faintness or unusual breathlessness.',
  checkPlan(plan, _world, context) {
    const { client } = plan;
    const condition = client.conditions.find(({ name }) => CONDITIONS.has(name));
    if (!condition || client.care.some((text) => BREATH_WORDS.test(text))) return [];
    const longSeconds = context.option(CODE, HOLD_SECONDS);
    for (const session of plan.sessions) {
      const cell = session.cells.find((each) => raisesPressure(each, longSeconds));
      if (!cell) continue;
      const finding: RawFinding = onLine(plan, condition.place, {
        headline: say`Heavy work or long holds with ${condition.name}.`,
        detail: say`${client.name}: ${movementText(cell)} from ${cell.date}.`,
        advice: say('Ask the doctor who treats it, and add a "care:" line on breathing.'),
        fixes: fixesOf(
          addClientLine(client, `care: "${said(CARE)}"`, say`${client.name}: add a care line on breathing`),
        ),
        related: [{ place: cell.place, message: say`${movementText(cell)} on ${cell.date}.` }],
      });
      return [finding];
    }
    return [];
  },
};
