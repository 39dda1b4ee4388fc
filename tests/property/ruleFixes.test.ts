/**
 * Every repair that a rule offers, on an input that brings it about: it adds no mistake, lifts no load, keeps or raises
 * the reserve that is written, asks for no higher stage, and taken again and again it comes to an end.
 */

import { describe, expect, it } from 'vitest';
import type { FindingFix, ResolvedGroup } from '../../server/src/engine/model.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { applyEdits } from '../../server/src/engine/views/format.js';
import { around, KIT } from '../rules/check.js';

const ruleOf = (code: string) => RULES.find((rule) => rule.code === code);
const exampleOf = (code: string) => ruleOf(code)?.example ?? '';

const EASIER = `movement box squat
  pattern: squat
  with: barbell
  easier: chair squat

movement chair squat
  pattern: squat
  with: bodyweight
`;

const boxSquat = (kit: string, row: string, client = '') => `${kit}

${EASIER}
client Heron
  height: 158cm
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 30kg x5 r2, 2026-11-23${client}
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  ${row}
`;

/** Box squats at which a knee hurt, of which the easier movement is there. */
function logged(pains: readonly (readonly [string, number])[]): string {
  const logs = pains.map(
    ([date, score]) => `log Heron, ${date}\n  box squat: 20kg 8 8\n  pain: knee ${score}/10\n`,
  );
  return [boxSquat(KIT, 'box squat: 3x8 r5'), ...logs].join('\n');
}

/** An input for each rule that has a repair; the example of the rule where it has what the repair needs. */
const INPUTS: Readonly<Record<string, string>> = {
  'aim-mismatch': exampleOf('aim-mismatch'),
  avoided: boxSquat(
    KIT,
    'box squat: 3x8 r3',
    '\n  avoid: box squat, from 2026-12-01 until 2027-01-31, "knee"',
  ),
  'back-too-fast': exampleOf('back-too-fast'),
  'beyond-kit': boxSquat('kit Boathouse\n  bar: 35kg', 'box squat: 3x8 r3'),
  'beyond-curve': boxSquat(KIT, 'box squat: 3x8 r3').replace('30kg x5 r2', '20kg x22 r1'),
  'bone-caution': exampleOf('bone-caution').replace('screened: 2026-11-01', 'units: kg'),
  // The two movements lead to one another, and the second block has fewer weeks than are written.
  'cannot-work-out': `${boxSquat(KIT, 'box squat: 3x8 r3 | 3x8 r4').replace('with: bodyweight', 'with: bodyweight\n  easier: box squat')}
block Mast, 1 week, like Keel
`,
  'block-moderate': exampleOf('block-moderate'),
  'body-unlikely': exampleOf('body-unlikely'),
  'curve-fit': exampleOf('curve-fit'),
  'days-many': exampleOf('days-many'),
  // Two blocks, of which the second has something written in each week, so that only the first can take a deload.
  'deload-due': `${exampleOf('deload-due').replace('Keel, 10 weeks', 'Keel, 7 weeks')}
block Ebb, 16 weeks
day Lower
  box squat: 3x6 r2 | 2x | 3x | | 2x
`,
  'effort-mismatch': exampleOf('effort-mismatch'),
  'effort-unwritten': exampleOf('effort-unwritten'),
  'failure-early': exampleOf('failure-early'),
  'failure-past-35': exampleOf('failure-past-35'),
  'far-off': exampleOf('far-off'),
  'flexion-caution': exampleOf('flexion-caution').replace(
    'with: dumbbell',
    'with: dumbbell\n  easier: front plank',
  ),
  'heavy-early': boxSquat(KIT, 'box squat: 3x6 r2'),
  'heavy-within-48h': exampleOf('heavy-within-48h'),
  'jump-load': exampleOf('jump-load'),
  'kit-coarse': exampleOf('kit-coarse'),
  'load-not-made': exampleOf('load-not-made'),
  'load-unchecked': exampleOf('load-unchecked'),
  'log-far-off': exampleOf('log-far-off'),
  'machine-fit': boxSquat(
    'kit Boathouse\n  machine leg press: 20kg to 120kg by 5kg, fits 165cm to 190cm',
    'box squat: 3x8 r3',
  ).replace('with: barbell', 'with: machine leg press'),
  'mass-unknown': exampleOf('mass-unknown'),
  'max-ageing': exampleOf('max-ageing'),
  'max-contradicts': exampleOf('max-contradicts'),
  'max-imprecise': exampleOf('max-imprecise'),
  'max-stale': exampleOf('max-stale'),
  'max-unknown': exampleOf('max-unknown'),
  'no-carry': exampleOf('no-carry'),
  'no-kit': exampleOf('no-kit'),
  'one-side-only': exampleOf('one-side-only'),
  'one-sided': exampleOf('one-sided'),
  'pain-next-morning': logged([
    ['2026-12-07', 3],
    ['2026-12-08', 3],
  ]),
  'pain-reported': logged([['2026-12-07', 4]]),
  'pressure-caution': exampleOf('pressure-caution'),
  'prilepin-range': exampleOf('prilepin-range'),
  'program-cut': exampleOf('program-cut'),
  'program-gap': exampleOf('program-gap'),
  'rest-short': exampleOf('rest-short'),
  'screening-missing': exampleOf('screening-missing'),
  'screening-old': exampleOf('screening-old'),
  'session-long': exampleOf('session-long'),
  'session-overran': exampleOf('session-overran').replace('95min', '500min'),
  'shared-load': exampleOf('shared-load'),
  'sprint-near-heavy': exampleOf('sprint-near-heavy'),
  'sprint-dose': exampleOf('sprint-dose'),
  'spotter-note': exampleOf('spotter-note'),
  'stage-unsigned': boxSquat(KIT, 'box squat: 3x8 r3').replace('ready: load squat 2026-06-01', 'units: kg'),
  'sign-off-again': exampleOf('sign-off-again'),
  stuck: around({
    row: 'back squat: 3x8 r3 | | +2% weekly |',
    kit: 'kit Boathouse\n  bar: 15kg\n  plates: 5kg x4\n',
  }),
  'tests-crowded': exampleOf('tests-crowded'),
  'twice-named': exampleOf('twice-named'),
  'two-stations': exampleOf('two-stations')
    .replace(
      'client Heron',
      'movement bar press\n  pattern: press\n  with: barbell\n  easier: wall press\n\nmovement wall press\n  pattern: press\n  with: bodyweight\n\nclient Heron',
    )
    .replaceAll('overhead press', 'bar press'),
  'volume-above-mean': exampleOf('volume-above-mean'),
  'volume-jump': exampleOf('volume-jump'),
  'unknown-name': exampleOf('unknown-name'),
  'unused-allow': exampleOf('unused-allow'),
};

/**
 * Repairs that say what is there, so that loads come where none were: a place to train, the effort that was not written,
 * the weeks of a block.
 */
const GIVES_LOADS = new Set(['no-kit', 'effort-unwritten', 'cannot-work-out']);
/** Repairs that move a test to another week, with its own load and reserve; held to that below. */
const MOVES = new Set(['tests-crowded']);
/** Repairs of a number or name that was mistyped: they put right what was meant, up or down. */
const MISTYPED = new Set(['far-off', 'unknown-name', 'body-unlikely', 'log-far-off']);

function open(text: string, code: string): EngineSession {
  const rule = ruleOf(code);
  const session = createSession({
    today: '2026-12-01',
    severities: rule?.severity === 'off' ? { [code]: 'info' } : {},
  });
  session.setFile('a', text);
  return session;
}

const errorsIn = (session: EngineSession): number =>
  (session.tree('a')?.problems ?? []).filter(({ severity }) => severity === 'error').length;

const fixesIn = (session: EngineSession, code: string): readonly FindingFix[] =>
  session
    .allFindings()
    .filter((finding) => finding.code === code)
    .flatMap((finding) => finding.fixes);

function take(session: EngineSession, fix: FindingFix): void {
  session.setFile('a', applyEdits(session.text('a') ?? '', fix.edits));
}

/** The groups of every client by client, date, row and place in the cell, with the movement that is done. */
function groupsIn(
  session: EngineSession,
): Map<string, { group: ResolvedGroup; movement: string | undefined }> {
  const found = new Map<string, { group: ResolvedGroup; movement: string | undefined }>();
  for (const key of session.world().clients.keys()) {
    for (const { date, cells } of session.plan(key)?.sessions ?? []) {
      for (const cell of cells) {
        cell.groups.forEach((group, index) => {
          const place = [key, date, cell.row.movement, index].join(' ');
          found.set(place, { group, movement: cell.movement?.key });
        });
      }
    }
  }
  return found;
}

const STAGES = ['learn', 'load', 'heavy'];

describe.each(Object.entries(INPUTS))('the repairs of %s', (code, text) => {
  const offered = fixesIn(open(text, code), code);

  it('are offered, on an input without a mistake', () => {
    expect(errorsIn(open(text, code))).toBe(0);
    expect(offered.length).toBeGreaterThan(0);
    expect(ruleOf(code)?.fix).toMatch(/quick fix/);
  });

  it.each(offered.map((fix) => [fix.title, fix] as const))('%s: harms nothing', (_, fix) => {
    const session = open(text, code);
    const before = groupsIn(session);
    take(session, fix);
    expect(errorsIn(session)).toBe(0);
    const after = groupsIn(session);
    for (const [place, { group, movement }] of after) {
      const was = before.get(place);
      if (!was || MISTYPED.has(code) || MOVES.has(code)) continue;
      if (!GIVES_LOADS.has(code)) {
        // Another movement has loads of its own, worked out from its own max.
        if (movement === was.movement && was.group.loadKg !== null)
          expect(group.loadKg ?? 0, `${place}: load`).toBeLessThanOrEqual(was.group.loadKg + 1e-9);
        if (movement === was.movement && was.group.loadKg === null)
          expect(group.loadKg, `${place}: no load out of nothing`).toBe(null);
      }
      if (was.group.writtenReserve !== null)
        expect(group.writtenReserve ?? -1, `${place}: reserve`).toBeGreaterThanOrEqual(
          was.group.writtenReserve,
        );
      if (was.group.stage && !GIVES_LOADS.has(code))
        expect(STAGES.indexOf(group.stage ?? 'learn'), `${place}: stage`).toBeLessThanOrEqual(
          STAGES.indexOf(was.group.stage),
        );
    }
  });

  it('come to an end', () => {
    const session = open(text, code);
    const seen = new Set<string>();
    for (;;) {
      const [fix] = fixesIn(session, code);
      if (!fix) break;
      take(session, fix);
      const now = session.text('a') ?? '';
      expect(seen.has(now), 'goes in a circle').toBe(false);
      seen.add(now);
      expect(seen.size, 'does not end').toBeLessThan(20);
    }
  });
});

it('a test that is moved is done once, alone on its day, and all else stays', () => {
  const session = open(INPUTS['tests-crowded'] as string, 'tests-crowded');
  const tests = () =>
    (session.plan('heron')?.sessions ?? []).flatMap(({ date, cells }) =>
      cells.flatMap(({ test, movement }) => (test ? [`${date} ${movement?.key}`] : [])),
    );
  expect(tests()).toEqual(['2026-12-14 back squat', '2026-12-14 overhead press']);
  const [fix] = fixesIn(session, 'tests-crowded');
  take(session, fix as FindingFix);
  expect(tests()).toEqual(['2026-12-14 back squat', '2026-12-21 overhead press']);
  expect(fixesIn(session, 'tests-crowded')).toEqual([]);
});

it.each(RULES.map((rule) => [rule.code, rule] as const))('%s has a quick fix, or says why not', (_, rule) => {
  const speaks = /quick fix/.test(rule.fix);
  expect(speaks, 'one of both').toBe(rule.noFix === undefined);
  if (rule.noFix !== undefined) expect(rule.noFix.length).toBeGreaterThan(30);
});

it('lists the rules without a quick fix: a new one has to be added here with its reason', () => {
  expect(RULES.flatMap(({ code, noFix }) => (noFix === undefined ? [] : [code])).sort()).toEqual([
    'day-unreached',
    'heavy-soon',
    'reps-past-35',
    'session-missed',
    'week-monotony',
    'week-strain',
    'workload-ratio',
  ]);
});

it('covers every rule whose page speaks of a quick fix', () => {
  const told = RULES.filter((rule) => /quick fix/.test(rule.fix)).map((rule) => rule.code);
  expect(told.filter((code) => INPUTS[code] === undefined)).toEqual([]);
});
