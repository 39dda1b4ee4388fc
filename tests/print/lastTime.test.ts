import { describe, expect, it } from 'vitest';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { buildCards } from '../../server/src/engine/print/card.js';
import type { MovementSheet, PlanDocument } from '../../server/src/engine/print/document.js';
import { planIn, sessionOf, sessionWith } from '../export/workspaces.js';

const text = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

client Heron
  trains at: Boathouse
  ready: heavy all 2026-10-05
  max: back squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter
block Keel, 3 weeks, heavy
day Lower
  back squat: 3x6 r2 ; 2x8 -10% | 4x | x5
  squat jump: 3x5
circuit Legs, 3 rounds
  split squat: x8 /side
end
`;

function sheets(extra = '', printedOn = '2026-11-25', base = text): PlanDocument {
  const session = sessionWith(base + extra);
  const asked = { from: null, until: null, printedOn, errors: 0 };
  return buildPlanDocument(planIn(session, 'heron'), session.world(), asked);
}

function movement(document: PlanDocument, week: number, name: string): MovementSheet {
  const entry = document.weeks[week]?.days[0]?.entries.find(
    (each) => each.kind === 'movement' && each.movement.name === name,
  );
  if (entry?.kind !== 'movement') throw new Error(`no ${name}`);
  return entry.movement;
}

const lastOf = (document: PlanDocument, week: number, name = 'Back squat') =>
  movement(document, week, name).work.map(({ last }) => last);

describe('last time', () => {
  it('says nothing before the first time, then what the plan had, group by group', () => {
    const document = sheets();
    expect(lastOf(document, 0)).toEqual([[], []]);
    expect(lastOf(document, 1)).toEqual([
      ['45 kg', '3 × 6', 'planned 7 Dec'],
      ['40 kg', '2 × 8', 'planned 7 Dec'],
    ]);
  });

  it('takes the log where there is one, and says so', () => {
    const document = sheets(
      '\nlog Heron, 2026-12-07, Lower\n  back squat: 42.5kg 6 6 5 r1 ; 40kg 8 8\n',
      '2026-12-08',
    );
    expect(lastOf(document, 1)).toEqual([
      ['42.5 kg', '6, 6, 5; 1 in reserve', 'done 7 Dec'],
      ['40 kg', '8, 8', 'done 7 Dec'],
    ]);
    expect(lastOf(document, 2)[0]?.at(-1)).toBe('planned 14 Dec');
  });

  it('is that of the row with the same label', () => {
    const two = text.replace('  squat jump: 3x5\n', '  back squat (pause): 2x3 70%\n  squat jump: 3x5\n');
    const squats = (document: PlanDocument, week: number) =>
      (document.weeks[week]?.days[0]?.entries ?? []).flatMap((each) =>
        each.kind === 'movement' && each.movement.name === 'Back squat'
          ? [each.movement.work[0]?.last?.[1]]
          : [],
      );
    expect(squats(sheets('', '2026-11-25', two), 1)).toEqual(['3 × 6', '2 × 3']);
    const log =
      '\nlog Heron, 2026-12-07, Lower\n  back squat: 45kg 6 6 6\n  back squat (pause): 37.5kg 3 3\n';
    expect(squats(sheets(log, '2026-12-08', two), 1)).toEqual(['6, 6, 6', '3, 3']);
  });

  it('passes over a session that was skipped or never logged where an older one was logged', () => {
    const log = '\nlog Heron, 2026-11-30\n  back squat: 42.5kg 6 6 r3\n';
    expect(lastOf(sheets(log, '2026-12-16'), 2)[0]?.at(-1)).toBe('done 30 Nov');
    const skipped = `${log}\nlog Heron, 2026-12-07, Lower\n  back squat: skipped "knee"\n`;
    expect(lastOf(sheets(skipped, '2026-12-08'), 0)[0]?.at(-1)).toBe('done 30 Nov');
  });

  it('repeats the plan where the log says that it was done as planned', () => {
    const document = sheets('\nlog Heron, 2026-12-07, Lower\n  as planned\n', '2026-12-08');
    expect(lastOf(document, 1)[0]).toEqual(['45 kg', '3 × 6', 'done 7 Dec']);
  });

  it('stands on the card', () => {
    const session = sessionWith(text);
    const plan = planIn(session, 'heron');
    const options = { printedOn: '2026-11-25', size: 'a4', large: false } as const;
    const card = buildCards(plan, plan.sessions.slice(1, 2), options, session.world());
    expect(JSON.stringify(card)).toContain('last time: 45 kg, 3 × 6, planned 7 Dec');
  });
});

describe('the easier movement', () => {
  const withDumbbells = text.replace('  bar:', '  dumbbells: 2kg to 20kg by 2kg\n  bar:');

  it('is the next one of the catalogue that the kit has', () => {
    const easier = (base: string) => movement(sheets('', '2026-11-25', base), 0, 'Back squat').easier;
    expect(easier(withDumbbells)).toBe('Easier: goblet squat');
    expect(easier(text)).toBe('Easier: bodyweight squat');
  });

  it('is never one that she avoids, nor anything of a pattern that she avoids', () => {
    const avoiding = withDumbbells.replace('  ready:', '  avoid: goblet squat\n  ready:');
    expect(movement(sheets('', '2026-11-25', avoiding), 0, 'Back squat').easier).toBe(
      'Easier: goblet squat to box',
    );
    const none = text.replace('  ready:', '  avoid: squat\n  ready:');
    expect(movement(sheets('', '2026-11-25', none), 0, 'Back squat').easier).toBeNull();
  });
});

describe('boxes', () => {
  it('are there for each set, and in a circuit for each round', () => {
    const document = sheets();
    expect(movement(document, 1, 'Back squat').work.map(({ boxes }) => boxes)).toEqual([4, 2]);
    expect(movement(document, 0, 'Split squat').work.map(({ boxes }) => boxes)).toEqual([3]);
  });

  it('are enough where a circuit goes by the clock', () => {
    const timed = (head: string) =>
      movement(sheets('', '2026-11-25', text.replace('Legs, 3 rounds', head)), 0, 'Split squat').work[0]
        ?.boxes;
    expect(timed('Legs, 12min, every 2min')).toBe(6);
    expect(timed('Legs, 12min')).toBe(6);
  });
});

describe('words', () => {
  it('are never codes of the notation', () => {
    for (const folder of ['samples/boathouse', 'samples/winter']) {
      const session = sessionOf(folder);
      for (const key of session.world().clients.keys()) {
        const asked = { from: null, until: null, printedOn: '2026-11-25', errors: 0 };
        const document = buildPlanDocument(planIn(session, key), session.world(), asked);
        const said = JSON.stringify(document.weeks, (name, value) => (name === 'source' ? undefined : value));
        expect(said).not.toMatch(/~|\br\d+\b|\bx\d+\b|\d+x\d+|\bbw\b|\brpe \d/);
      }
    }
  });
});
