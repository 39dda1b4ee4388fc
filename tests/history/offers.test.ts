import { describe, expect, it } from 'vitest';
import { clientOffers } from '../../server/src/engine/history/history.js';
import type { Offer, OfferKind } from '../../server/src/engine/history/offers.js';
import {
  criteriaUnder,
  DEFAULT_SIGN_OFF,
  readSignOff,
  type SignOffCriteria,
} from '../../server/src/engine/history/signOffCriteria.js';
import { createSession } from '../../server/src/engine/session.js';
import type { Setting } from '../engine/studio.js';
import { logged, openLogged } from './logs.js';

const log = (date: string, ...lines: string[]) =>
  `log Heron, ${date}, A\n${lines.map((line) => `  ${line}`).join('\n')}`;
const MONDAYS = ['2026-12-07', '2026-12-14', '2026-12-21', '2026-12-28'] as const;

function offers(
  row: string,
  lines: readonly string[],
  kind?: OfferKind,
  setting: Setting = {},
  today = '2027-01-01',
) {
  const logs = lines.map((line, index) => log(MONDAYS[index] as string, line));
  const { plan, world, text } = logged(`  ${row}`, logs.join('\n'), setting);
  const found = clientOffers(plan, world, today).filter((offer) => kind === undefined || offer.kind === kind);
  return { found, text };
}

/** The text with the line of an offer put in its place. */
function taken(text: string, offer: Offer | undefined): string {
  if (!offer?.line) throw new Error('The offer has no line.');
  const at = offer.under.span.end;
  return `${text.slice(0, at)}\n  ${offer.line}${text.slice(at)}`;
}

describe('a new max line', () => {
  it('is a set that was done, the nearest from below, and reads without a slip', () => {
    const { found, text } = offers(
      'lift: 3x5 r2',
      ['lift: 92.5kg 5 5 5 r2', 'lift: 95kg 5 5 5 r2', 'lift: 97.5kg 5 5 5 r2'],
      'max',
      {},
      '2026-12-22',
    );
    // The session of 21 December is over: the line counts from today on.
    expect(found.map(({ line }) => line)).toEqual(['max: lift, 95kg x5 r2, 2026-12-14, from 2026-12-22']);
    expect(found[0]?.rests.length).toBeGreaterThanOrEqual(4);
    expect(found[0]?.source).toMatch(/Halperin/);
    const session = createSession({ today: null });
    session.setFile('a.stave', taken(text, found[0]));
    expect(session.tree('a.stave')?.problems).toEqual([]);
    const cells = session.plan('heron')?.sessions.flatMap(({ cells }) => cells) ?? [];
    // The past holds: weeks 1 to 3 still rest on 100 kg, week 4 on 95 × 36/30 = 114 kg.
    expect(cells.map(({ groups }) => groups[0]?.estimatedOneRepMaxKg)).toEqual([
      100,
      100,
      100,
      expect.closeTo(114, 6),
    ]);
  });

  it('counts from its own day where no session lies between, and from tomorrow where today is logged', () => {
    const lines = ['lift: 95kg 5 5 5 r2', 'lift: 95kg 5 5 5 r2'];
    expect(offers('lift: 3x5 r2', lines, 'max', {}, '2026-12-14').found[0]?.line).toBe(
      'max: lift, 95kg x5 r2, 2026-12-14',
    );
    const heavier = ['lift: 95kg 5 5 5 r2', 'lift: 97.5kg 5 5 5 r2', 'lift: 100kg 5 5 5 r2'];
    expect(offers('lift: 3x5 r2', heavier, 'max', {}, '2026-12-21').found[0]?.line).toMatch(
      /, 2026-12-14, from 2026-12-22$/,
    );
  });

  it('leaves what was done as planned as it was planned', () => {
    const { found, text } = offers(
      'lift: 3x5 r2',
      ['lift: 95kg 5 5 5 r2', 'lift: 95kg 5 5 5 r2', 'as planned'],
      'max',
      {},
      '2026-12-22',
    );
    const doneKg = (own: string) =>
      openLogged(own).history.done.map(({ movements }) => movements[0]?.groups[0]?.loadKg);
    expect(doneKg(taken(text, found[0]))).toEqual(doneKg(text));
    expect(doneKg(text)).toEqual([95, 95, 82.5]);
  });

  it('is not offered again once it was taken', () => {
    const { found, text } = offers('lift: 3x5 r2', ['lift: 95kg 5 5 5 r2', 'lift: 95kg 5 5 5 r2'], 'max');
    const session = createSession({ today: null });
    session.setFile('a.stave', taken(text, found[0]));
    const plan = session.plan('heron');
    if (!plan) throw new Error('no plan');
    expect(clientOffers(plan, session.world(), '2027-01-01').filter(({ kind }) => kind === 'max')).toEqual(
      [],
    );
  });

  it('is not offered within the error, nor from one day alone', () => {
    expect(offers('lift: 3x5 r2', ['lift: 85kg 5 r2', 'lift: 85kg 5 r2'], 'max').found).toEqual([]);
    expect(offers('lift: 3x5 r2', ['lift: 95kg 5 r2'], 'max').found).toEqual([]);
  });

  it('says less as well', () => {
    const { found } = offers('lift: 3x5 r2', ['lift: 72.5kg 5 5 5 r2', 'lift: 72.5kg 5 5 5 r2'], 'max');
    expect(found[0]?.line).toBe('max: lift, 72.5kg x5 r2, 2026-12-14, from 2027-01-01');
    expect(found[0]?.why).toMatch(/less than the plan/);
  });
});

describe('the next load', () => {
  // NSCA 2-for-2 rule: two reps over the goal in the last set of two consecutive workouts.
  it('comes after two reps over the goal in the last set, twice', () => {
    const { found } = offers('lift: 3x8 60kg', ['lift: 60kg 8 8 10 r3', 'lift: 60kg 8 9 10 r3'], 'next-load');
    expect(found).toHaveLength(1);
    expect(found[0]?.title).toMatch(/62\.5 kg/);
    expect(found[0]?.source).toMatch(/2-for-2/);
  });

  // ACSM 2009: 1-2 reps over the target on two consecutive sessions, 2-10 % more.
  it('comes by the rule of the ACSM after one rep over, twice', () => {
    const { found } = offers('lift: 3x8 60kg', ['lift: 60kg 8 8 9 r3', 'lift: 60kg 8 9 9 r3'], 'next-load');
    expect(found[0]?.source).toMatch(/ACSM/);
    expect(found[0]?.why).toMatch(/4\.2 %/);
  });

  it('needs two in a row, the last set, the planned load and the written reserve', () => {
    const none = (lines: readonly string[], row = 'lift: 3x8 60kg') =>
      expect(offers(row, lines, 'next-load').found).toEqual([]);
    none(['lift: 60kg 8 8 10 r3']);
    none(['lift: 60kg 8 8 10 r3', 'lift: 60kg 8 8 8 r3']);
    none(['lift: 60kg 10 10 8 r3', 'lift: 60kg 10 10 8 r3']);
    none(['lift: 55kg 8 8 10 r3', 'lift: 55kg 8 8 10 r3']);
    none(['lift: 60kg 8 8 10 r3', 'lift: as planned', 'lift: 60kg 8 8 10 r3']);
    none(['lift: 72.5kg 8 8 10 r0', 'lift: 72.5kg 8 8 10 r0'], 'lift: 3x8 r2');
  });

  it('counts the upper end of a range as the goal', () => {
    expect(offers('lift: 3x6-8 60kg', ['lift: 60kg 8 8 8', 'lift: 60kg 8 8 8'], 'next-load').found).toEqual(
      [],
    );
    expect(
      offers('lift: 3x6-8 60kg', ['lift: 60kg 8 8 10', 'lift: 60kg 8 8 10'], 'next-load').found,
    ).toHaveLength(1);
  });

  it('says so when the next load is more than 10 % away, and then only by the stricter rule', () => {
    // Dumbbells of 4 and 6 kg: 50 % more.
    const wide = offers('bells: 3x8 4kg', ['bells: 4kg 8 8 10', 'bells: 4kg 8 8 10'], 'next-load').found;
    expect(wide[0]?.why).toMatch(/over the 10 % of the ACSM/);
    expect(offers('bells: 3x8 4kg', ['bells: 4kg 8 8 9', 'bells: 4kg 8 8 9'], 'next-load').found).toEqual([]);
  });
});

describe('the step back', () => {
  it('comes after missed reps twice', () => {
    const { found } = offers('lift: 3x5 r2', ['lift: 82.5kg 5 5 4 r0', 'lift: 82.5kg 5 4 3 r0'], 'step-back');
    expect(found[0]?.title).toMatch(/80 kg/);
    expect(found[0]?.line).toBe('max: lift, 82.5kg x3 r0, 2026-12-14, from 2027-01-01');
    expect(
      offers('lift: 3x5 r2', ['lift: 82.5kg 5 5 4 r0', 'lift: 82.5kg 5 5 5 r2'], 'step-back').found,
    ).toEqual([]);
  });

  it('comes after a reserve below plan twice', () => {
    const { found } = offers('lift: 3x5 r2', ['lift: 82.5kg 5 5 5 r1', 'lift: 82.5kg 5 5 5 r0'], 'step-back');
    expect(found).toHaveLength(1);
    expect(found[0]?.why).toMatch(/reserve/);
    expect(
      offers('lift: 3x5 r2', ['lift: 82.5kg 5 5 5 r1.5', 'lift: 82.5kg 5 5 5 r1.5'], 'step-back').found,
    ).toEqual([]);
  });

  it('does not count fewer reps at more load, nor work that was skipped', () => {
    expect(offers('lift: 3x5 r2', ['lift: 90kg 4 4 4 r1', 'lift: 90kg 4 4 4 r1'], 'step-back').found).toEqual(
      [],
    );
    expect(offers('lift: 3x5 r2', ['lift: skipped "ill"', 'lift: skipped "ill"'], 'step-back').found).toEqual(
      [],
    );
  });
});

describe('a sign-off', () => {
  const criteria: readonly SignOffCriteria[] = [
    {
      stage: 'load',
      sessions: 3,
      weeks: 2,
      painFreeDays: 28,
      painFrom: 3,
      techniqueNotes: 0,
      techniqueWords: ['technique', 'form'],
    },
  ];
  const ask = (
    logs: string,
    own: readonly SignOffCriteria[] = criteria,
    today = '2026-12-29',
    ready = '',
  ) => {
    const { plan, world } = logged('  lift: 3x10 20kg', logs, { ready });
    return clientOffers(plan, world, today, own).filter(({ kind }) => kind === 'sign-off');
  };
  const three = MONDAYS.slice(0, 3)
    .map((date) => log(date, 'as planned'))
    .join('\n');

  it('is offered when the criteria are met, as a line for the coach to take', () => {
    const [offer] = ask(three);
    expect(offer?.line).toBe('ready: load squat 2026-12-29');
    expect(offer?.source).toMatch(/Common practice, no source/);
  });

  it('is not offered too soon, after pain, or for what is signed off', () => {
    expect(ask(three, criteria, '2026-12-15')).toEqual([]);
    expect(ask(log('2026-12-07', 'as planned'))).toEqual([]);
    expect(ask(`${three}\nlog Heron, 2026-12-28\n  pain: knee 4/10`)).toEqual([]);
    expect(ask(`${three}\nlog Heron, 2026-12-28\n  pain: knee 1/10`)).toHaveLength(1);
    expect(ask(three, criteria, '2026-12-29', 'load squat 2026-12-01')).toEqual([]);
  });

  it('asks for notes on technique where the coach set a number', () => {
    const strict = [{ ...(criteria[0] as SignOffCriteria), techniqueNotes: 1 }];
    expect(ask(three, strict)).toEqual([]);
    expect(ask(`${three}\nlog Heron, 2026-12-28\n  note: "technique steady at depth"`, strict)).toHaveLength(
      1,
    );
  });

  it('takes the words of her own language for a note on technique', () => {
    const german = [
      { ...(criteria[0] as SignOffCriteria), techniqueNotes: 1, techniqueWords: ['ausführung'] },
    ];
    expect(ask(`${three}\nlog Heron, 2026-12-28\n  note: "technique steady"`, german)).toEqual([]);
    const [offer] = ask(`${three}\nlog Heron, 2026-12-28\n  note: "Ausführung: ruhig"`, german);
    expect(offer?.why).toMatch(/Notes on technique: 1 or more/);
  });

  it('goes one stage at a time and does not offer heavy work within half a year by the defaults', () => {
    const { plan, world } = logged('  lift: 3x10 20kg', three, { ready: '' });
    expect(clientOffers(plan, world, '2026-12-29').filter(({ kind }) => kind === 'sign-off')).toEqual([]);
  });

  it('starts counting again after a sign-off was taken back', () => {
    expect(ask(three, criteria, '2026-12-29', 'load squat 2026-06-01, learn squat 2026-12-20')).toEqual([]);
  });
});

describe('the criteria of a sign-off', () => {
  it('have the defaults that are common practice, and each number can be set', () => {
    expect(criteriaUnder(undefined)).toEqual(DEFAULT_SIGN_OFF);
    const { settings, problems } = readSignOff({
      heavy: { sessions: 60, techniqueNotes: 2 },
      techniqueWords: ['Ausführung'],
    });
    expect(problems).toEqual([]);
    const [load, heavy] = criteriaUnder(settings);
    expect(load).toMatchObject({ stage: 'load', sessions: 8, weeks: 4, techniqueWords: ['ausführung'] });
    expect(heavy).toMatchObject({ stage: 'heavy', sessions: 60, weeks: 26, techniqueNotes: 2 });
  });

  it.each([
    [[], '"signOff" has to be an object'],
    [{ heavi: {} }, 'has no "heavi". Did you mean "heavy"?'],
    [{ learn: {} }, 'There is "load", "heavy" and "techniqueWords".'],
    [{ heavy: 40 }, '"heavy" of "signOff" has to be an object'],
    [{ heavy: { session: 40 } }, 'has no "session". Did you mean "sessions"?'],
    [{ heavy: { sessions: 0 } }, 'number from 1 to 500; found 0.'],
    [{ load: { painFrom: 9 } }, 'number from 1 to 4; found 9.'],
    [{ load: { painFreeDays: 0 } }, 'number from 7 to 365; found 0.'],
    [{ techniqueWords: 'form' }, 'has to be a list of words'],
  ])('%j is answered in words and sets nothing', (value, words) => {
    const { settings, problems } = readSignOff(value);
    expect(settings).toEqual({});
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain(words);
  });

  it('hold for the clients of the files beside which they are set', () => {
    const session = createSession({
      signOff: { load: { sessions: 12 } },
      settingsFor: (file) => (file === 'b/wren.stave' ? near : null),
    });
    const near = { severities: {}, options: {}, signOff: { load: { weeks: 2 } } };
    session.setFile('a/heron.stave', 'client Heron\n');
    session.setFile('b/wren.stave', 'client Wren\n');
    expect(session.signOffCriteria('heron')[0]).toMatchObject({ sessions: 12, weeks: 4 });
    expect(session.signOffCriteria('wren')[0]).toMatchObject({ sessions: 12, weeks: 2 });
  });
});
