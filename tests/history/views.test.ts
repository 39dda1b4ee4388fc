// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.
import { describe, expect, it } from 'vitest';
import type { EngineSession } from '../../server/src/engine/session.js';
import { completions } from '../../server/src/engine/views/completion.js';
import { applyEdits } from '../../server/src/engine/views/format.js';
import { hover } from '../../server/src/engine/views/hover.js';
import { type OfferAction, offerActions } from '../../server/src/engine/views/offers.js';
import { workspace } from '../engine/studio.js';
import { cursor } from '../views/samples.js';
import { SMALL, sessionOf } from '../views/workspace.js';

const LOGS = `log Heron, 2026-12-07, Lower
  as planned
  back squat: 52.5kg 6 6 6 r2 ; 42.5kg 6 6
log Heron, 2026-12-10, Lower
  back squat: 52.5kg 6 6 6 r2
`;

function withLog(log: string, today = '2026-12-12'): { session: EngineSession; offset: number } {
  const { text, offset } = cursor(log);
  const session = sessionOf({ ...SMALL, 'log.stave': text });
  session.setOptions({ today, severities: {} } as Parameters<EngineSession['setOptions']>[0]);
  return { session, offset };
}

/** What an offer writes; fails where it writes nothing. */
function editsOf(action: OfferAction | undefined) {
  const result = action?.edits();
  if (!result?.ok) throw new Error(result?.because ?? 'There is no offer.');
  return result.edits;
}

describe('offers in the editor', () => {
  const clients = SMALL['clients.stave'] as string;
  const session = sessionOf({ ...SMALL, 'log.stave': LOGS });
  const at = (text: string) => ({ start: clients.indexOf(text), end: clients.indexOf(text) });

  it('adds the line under the last max of the client, and the file reads cleanly', () => {
    const offers = offerActions(session, 'clients.stave', at('client Heron'), '2026-12-12');
    expect(offers.map(({ offer }) => offer.line)).toEqual(['max: back squat, 52.5kg x6 r2, 2026-12-10']);
    const after = applyEdits(clients, editsOf(offers[0]));
    expect(after).toContain(
      '47.5kg x5 r2, 2026-11-23\n  max: back squat, 52.5kg x6 r2, 2026-12-10\n  follows',
    );
  });

  it('stays behind a note at the end of the line', () => {
    const noted = clients.replace('47.5kg x5 r2, 2026-11-23', '47.5kg x5 r2, 2026-11-23 -- looked easy');
    const other = sessionOf({ ...SMALL, 'clients.stave': noted, 'log.stave': LOGS });
    const [offer] = offerActions(other, 'clients.stave', at('client Heron'), '2026-12-12');
    expect(applyEdits(noted, editsOf(offer))).toContain('-- looked easy\n  max: back squat, 52.5kg');
  });

  it('is there in her log, and not at another client or a program', () => {
    expect(offerActions(session, 'log.stave', { start: 3, end: 3 }, '2026-12-12')).toHaveLength(1);
    expect(offerActions(session, 'clients.stave', at('client Wren'), '2026-12-12')).toEqual([]);
    expect(offerActions(session, 'winter.stave', { start: 3, end: 3 }, '2026-12-12')).toEqual([]);
  });
});

describe('an offer about a row with a fixed load', () => {
  const rows = (cells: string) => `  lift: ${cells}`;
  const logs = ['2026-12-07', '2026-12-14']
    .map((date) => `log Heron, ${date}, A\n  lift: 60kg 8 8 10 r3\n`)
    .join('');
  const TODAY = '2026-12-16';
  const openWith = (cells: string, more = '') => {
    const text = `${workspace(rows(cells))}\n${logs}${more}`;
    const session = sessionOf({ 'a.stave': text });
    const at = text.indexOf('client Heron');
    const [action] = offerActions(session, 'a.stave', { start: at, end: at }, TODAY).filter(
      ({ offer }) => offer.kind === 'next-load',
    );
    return { text, session, action };
  };
  const loadsOf = (text: string) =>
    sessionOf({ 'a.stave': text })
      .plan('heron')
      ?.sessions.flatMap(({ cells }) => cells.map(({ groups }) => groups[0]?.loadKg));

  it('writes the load into the next cell, and changes nothing before it', () => {
    for (const [before, after] of [
      ['3x8 60kg', '3x8 60kg | | 62.5kg'],
      ['3x8 60kg | | |', '3x8 60kg | | 62.5kg |'],
      ['3x8 60kg | rest 2min | tempo 3-1-1 |', '3x8 60kg | rest 2min | 62.5kg tempo 3-1-1 |'],
    ] as const) {
      const { text, action } = openWith(before);
      const changed = applyEdits(text, editsOf(action));
      expect(changed.replace(/ +/g, ' ')).toContain(`lift: ${after}`);
      expect(loadsOf(text)).toEqual([60, 60, 60, 60]);
      expect(loadsOf(changed)).toEqual([60, 60, 62.5, 62.5]);
      // Taken, it is not offered again.
      const at = changed.indexOf('client Heron');
      const again = offerActions(sessionOf({ 'a.stave': changed }), 'a.stave', { start: at, end: at }, TODAY);
      expect(again.filter(({ offer }) => offer.kind === 'next-load')).toEqual([]);
    }
  });

  it('is not made where the plan goes there by itself', () => {
    expect(openWith('3x8 60kg | | +2.5kg').action).toBeUndefined();
  });

  it('is refused with the reason where others train by the same row', () => {
    const others = 'client Wren\n  trains at: Boathouse\n  follows: Test, from 2026-12-07, on mon\n';
    const { action } = openWith('3x8 60kg', others);
    const result = action?.edits();
    expect(result).toMatchObject({ ok: false });
    expect(result?.ok === false && result.because).toMatch(
      /^Wren, .* from 60 kg to 62\.5 kg, so nothing was changed/,
    );
  });

  it('is there in the row too, for the client whose loads are shown', () => {
    const { text, session } = openWith('3x8 60kg');
    const at = text.indexOf('  lift: 3x8') + 4;
    const found = (client: string | null) =>
      offerActions(session, 'a.stave', { start: at, end: at }, TODAY, client).map(({ offer }) => offer.kind);
    expect(found('heron')).toContain('next-load');
    expect(found(null)).toEqual([]);
  });
});

describe('completion of logs', () => {
  const inserted = (log: string) => {
    const { session, offset } = withLog(log);
    return completions(session, 'log.stave', offset);
  };

  it('offers the clients, then her sessions without a log, filled in as planned', () => {
    expect(inserted('log ‸').map(({ label }) => label)).toEqual(expect.arrayContaining(['Heron', 'Wren']));
    const days = inserted(`${LOGS}\nlog Wren, ‸`).filter(({ kind }) => kind === 'day');
    expect(days.map(({ label }) => label)).toEqual(['2026-12-10, Lower', '2026-12-07, Lower']);
    // Wren's max is 60 × 36/30 = 72 kg: 72 × 29/36 = 58 kg, made as 57.5, and 10 % less 52.2 kg, made as 52.5 (within
    // 1 %). Her unit is the pound, but the plates are in kilograms.
    expect(days[1]?.insert).toBe(
      '2026-12-07, Lower\n  back squat: 57.5kg 6 6 6 ; 52.5kg 6 6\n  box squat: 8 8 8\n  push-up: bw 8 8 8',
    );
    expect(inserted(`${LOGS}\nlog Heron, ‸`).filter(({ kind }) => kind === 'day')).toEqual([]);
  });

  it('fills in text that reads cleanly and binds to the plan', () => {
    const { session } = withLog('log Heron, ‸');
    const [newest] = completions(session, 'log.stave', 'log Heron, '.length).filter(
      ({ kind }) => kind === 'day',
    );
    session.setFile('log.stave', `log Heron, ${newest?.insert}\n`);
    expect(session.tree('log.stave')?.problems).toEqual([]);
    expect(session.findings('log.stave')).toEqual([]);
  });

  it('offers what was planned, on a new line and after a movement', () => {
    const lines = inserted('log Heron, 2026-12-07, Lower\n  ‸').map(({ insert }) => insert);
    expect(lines).toContain('back squat: 45kg 6 6 6 ; 40kg 6 6');
    const values = inserted('log Heron, 2026-12-07, Lower\n  back squat: ‸').map(({ insert }) => insert);
    expect(values[0]).toBe('45kg 6 6 6 ; 40kg 6 6');
    expect(values).toContain('as planned');
  });

  it('leads through a swap: the rows of the day, what was done instead, the planned sets, why', () => {
    const at = (line: string) =>
      inserted(`log Heron, 2026-12-07, Lower\n  ${line}`).map(({ insert }) => insert);
    expect(at('swap: ‸')).toEqual(['back squat', 'box squat', 'push-up']);
    expect(at('swap: back squat, ‸')).toEqual(['to $0']);
    expect(at('swap: back squat, to box‸')).toContain('box squat');
    // The sets of the plan without its loads.
    expect(at('swap: back squat, to leg press, ‸')).toEqual(['6 6 6 ; 6 6', '"${1:why}"']);
    expect(at('‸')).toContain(
      'swap: ${1|back squat,box squat,push-up|}, to ${2:movement}, ${3:sets}, "${4:why}"$0',
    );
  });
});

describe('hover on a log', () => {
  const text = (log: string) => {
    const { session, offset } = withLog(log);
    return hover(session, 'log.stave', offset)?.markdown;
  };

  it('shows planned, done and the difference of a movement', () => {
    const shown = text(
      'log Heron, 2026-12-07, Lower\n  as planned\n  back squat: 52.5kg ‸6 6 5 r2 ; 42.5kg 6 6\n',
    );
    expect(shown).toContain('Planned: 3 × 6 at 45 kg');
    expect(shown).toContain('Done: 52.5 kg: 6 6 5, 2 in reserve; 42.5 kg: 6 6');
    // 52.5 × 17 + 42.5 × 12 = 1402.5 against 45 × 18 + 40 × 12 = 1290.
    expect(shown).toMatch(/Difference: 0 sets, −1 reps, \+113 kg of volume-load/);
  });

  it('shows a swap of the day with what it was done instead of', () => {
    const shown = text(
      'log Heron, 2026-12-07, Lower\n  as planned\n  swap: back squat, to leg press, 60kg 10 1‸0 10 r3, "rack taken"\n',
    );
    expect(shown).toContain('leg press');
    expect(shown).toContain('Swapped that day: instead of back squat: rack taken');
    expect(shown).toContain('Planned: 3 × 6 at 45 kg');
    expect(shown).toContain('Done: 60 kg: 10 10 10, 3 in reserve');
    expect(text('log Heron, 2026-12-07\n  sw‸ap: back squat, to leg press')).toContain(
      'Done: the planned sets, load not written',
    );
  });

  it('shows the whole session on its header and on "as planned"', () => {
    expect(text('log Heron, 2026-12-‸07, Lower\n  as planned\n')).toMatch(/Winter · Keel, week 1, Lower/);
    expect(text('log Heron, 2026-12-07, Lower\n  as pl‸anned\n')).toMatch(/Done: 11 sets/);
    expect(text('log Heron, 2026-11-0‸2\n  note: "x"\n')).toMatch(/No planned session/);
  });
});
