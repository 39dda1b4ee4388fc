import { say } from '../../../../grammar/say.js';
import { curve } from '../curves.js';
import type { MaxEntry } from '../model.js';
import { formatPercent } from '../numbers.js';
import { curveOn } from '../resolve/strength.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { rowRuns } from './shared/cells.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { ageOn } from './shared/words.js';

const CODE = 'curve-fit';
const FROM_AGE: RuleOption = {
  key: 'fromAge',
  default: 55,
  least: 18,
  most: 100,
  what: 'age in years from which on it is told',
};
const LEAST_PERCENT: RuleOption = {
  key: 'leastPercent',
  default: 3,
  least: 0,
  most: 30,
  what: 'difference between the two curves above which it is told, in per cent',
};

const files = (more: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Plover', [
      'born: 1965-03',
      'ready: load squat 2026-06-01',
      'max: back squat, 40kg x8 r2, 2026-11-30',
      ...more,
    ]),
    winter('Keel, 2 weeks', { Lower: ['back squat: 3x8 r3'] }),
  );

export const curveFit: Rule = {
  code: CODE,
  title: 'A curve that was made for others',
  severity: 'off',
  options: [FROM_AGE, LEAST_PERCENT],
  what: 'For a client of 55 years or more a general curve is used, and the one studied in trained postmenopausal women gives a max that differs by more than 3 %. A note, off by default: only the coach knows whom the study fits.',
  why: 'The general curves were mostly made with young lifters. For some people they promise too much.',
  source:
    'Kemmler et al., J Strength Cond Res 2006;20(4) (70 trained postmenopausal women, error 1.5 to 3.1 %). Knutzen et al. 1999 found the opposite on machines: general curves were too low for adults of 71 years. The literature disagrees; expect 10 % either way.',
  example: files([]),
  better: files(['curve: kemmler']),
  fix: 'Add "curve: kemmler" to the client if she is like the women of that study, or leave it. The quick fix adds it where it lowers the max.',
  checkPlan(plan, _world, context) {
    const fromAge = context.option(CODE, FROM_AGE);
    const least = context.option(CODE, LEAST_PERCENT) / 100;
    const { client } = plan;
    if (client.born === null) return [];
    const kemmler = curve('kemmler');
    const told = new Set<MaxEntry>();
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      for (const cell of run.cells) {
        const max = cell.groups[0]?.max;
        const using = curveOn(client, cell.date);
        if (
          !max ||
          told.has(max.entry) ||
          using.name === 'kemmler' ||
          max.repsToFailure > kemmler.domainMaxReps
        )
          continue;
        if ((ageOn(client, cell.date) ?? 0) < fromAge) continue;
        told.add(max.entry);
        const difference = using.share(max.repsToFailure) / kemmler.share(max.repsToFailure) - 1;
        if (!(Math.abs(difference) > least)) continue;
        findings.push(
          onLine(plan, max.entry.place, {
            headline: say`The ${using.title} curve and the one for trained postmenopausal women differ here.`,
            detail: say`${client.name}: the max would be ${formatPercent(Math.abs(difference), 0)} ${difference < 0 ? say('lower') : say('higher')} with "curve: kemmler".`,
            advice: say(
              'Take the lower of the two if in doubt, or have a set of fewer reps done: there they agree better.',
            ),
            // A curve that promises more is the coach's own choice, and so is one beside a line that is there.
            fixes:
              difference < 0 && client.curves.length === 0
                ? fixesOf(
                    addClientLine(
                      client,
                      'curve: kemmler',
                      say`${client.name}: take the lower curve, kemmler`,
                    ),
                  )
                : [],
          }),
        );
      }
    }
    return findings;
  },
};
