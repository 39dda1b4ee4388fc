import { describe, expect, it } from 'vitest';
import type { EngineSession } from '../../server/src/engine/session.js';
import { type HintOptions, inlayHints } from '../../server/src/engine/views/inlayHints.js';
import { SAMPLES, WORKED } from './samples.js';
import { boathouse, SMALL, sessionOf, WINTER } from './workspace.js';

const LOADS: HintOptions = { clientKey: null, loads: true, reserve: false, plates: false };

/** The text with its hints in brackets where they stand. */
function drawn(session: EngineSession, file: string, options: Partial<HintOptions> = {}): string {
  const text = session.text(file) as string;
  const hints = inlayHints(session, file, { start: 0, end: text.length }, { ...LOADS, ...options });
  return [...hints]
    .reverse()
    .reduce((out, hint) => `${out.slice(0, hint.offset)}[${hint.label}]${out.slice(hint.offset)}`, text);
}

describe('loads beside cells', () => {
  // Loads of the worked example in the notation's reference.
  it('shows the loads of the worked example', () => {
    const out = drawn(sessionOf({ a: WORKED }), 'a');
    expect(out).toContain('3x6 r2 warm rest 3min[= 45 kg] | 4x[= 45 kg] | x5[= 47.5 kg]');
    expect(out).toContain('| [= 47.5 kg] |[= 42.5 kg]\n');
    expect(out).toContain('3x8 r3[= 20 kg] ');
  });

  it('shows plates and reserve as kinds of their own', () => {
    const session = sessionOf({ a: WORKED });
    const plates = drawn(session, 'a', { loads: false, plates: true });
    expect(plates).toContain('3x6 r2 warm rest 3min[10 + 5] | 4x[10 + 5] | x5[10 + 5 + 1.25]');
    expect(drawn(session, 'a', { loads: false, reserve: true })).toContain('3x6 r2 warm rest 3min[r 2.6] |');
    expect(drawn(session, 'a', { loads: false })).toBe(WORKED);
  });

  it('shows the chosen client in her unit, an old max as provisional, and the first by name when none is chosen', () => {
    const session = sessionOf(SMALL);
    expect(drawn(session, 'winter.stave')).toContain('-10%[= 45; 40 kg] |');
    // 60 kg × 36/30 = 72 kg (Brzycki), × 29/36 = 58 kg: 57.5 kg (126.77 lb). 10 % less is 52.2 kg, and 52.5 kg
    // (115.74 lb) is less than 1 % above it.
    const wren = drawn(session, 'winter.stave', { clientKey: 'wren' });
    expect(wren).toContain('-10%[~ 126.77; 115.74 lb] |');
  });

  it('marks a load that should be there and is not, and keeps quiet where none is wanted', () => {
    const out = drawn(sessionOf(SMALL), 'winter.stave');
    expect(out).toContain('push-up: 3x8\n');
    const noMax = sessionOf({
      ...SMALL,
      'clients.stave': (SMALL['clients.stave'] ?? '').replace(/ {2}max:.*\n/g, ''),
    });
    expect(drawn(noMax, 'winter.stave')).toContain('-10%[= ?] |');
  });

  it('does not repeat a load that is written in the cell', () => {
    const text = WINTER.replace('3x8 r3', '3x8 20kg | 3x');
    expect(drawn(sessionOf({ ...SMALL, 'winter.stave': text }), 'winter.stave')).toContain(
      '3x8 20kg | 3x[= 20 kg]',
    );
  });

  it('shows both loads where a day comes twice in a week and they differ', () => {
    const clients = (SMALL['clients.stave'] ?? '').replace(
      '2026-11-23\n',
      '2026-11-23\n  max: back squat, 52.5kg x5 r2, 2026-12-08\n',
    );
    const text = WINTER.replace('3x6 r2 ; 2x6 -10%', '3x6 r2');
    const out = drawn(
      sessionOf({ ...SMALL, 'clients.stave': clients, 'winter.stave': text }),
      'winter.stave',
    );
    // 52.5 kg × 36/30 × 29/36 = 50.75 kg: 50 kg from Thursday on.
    expect(out).toContain('3x6 r2[= 45 / 50 kg]');
  });

  it('has no hints for a client who does not follow the program', () => {
    expect(drawn(sessionOf(SMALL), 'winter.stave', { clientKey: 'plover' })).toBe(WINTER);
  });

  it('answers for the lines that are asked for only', () => {
    const session = sessionOf({ a: WORKED });
    const row = WORKED.indexOf('overhead press: 3x8');
    const hints = inlayHints(session, 'a', { start: row, end: row + 5 }, LOADS);
    expect(hints).toEqual([]);
    const whole = inlayHints(session, 'a', { start: row, end: WORKED.length }, LOADS);
    expect(whole.map(({ label }) => label)).toEqual(['= 20 kg', '= 20 kg', '= 20 kg']);
  });

  it('says the date, the dose and the plates in the tooltip', () => {
    const [hint] = inlayHints(sessionOf({ a: WORKED }), 'a', { start: 0, end: WORKED.length }, LOADS);
    expect(hint?.tooltip?.()).toBe(
      'Heron, week 1, 2026-12-07: 3 × 6 at 45 kg (10 + 5 each side), 2.6 in reserve, 78.9 % of the max',
    );
  });

  it('keeps every label of the sample short and never empty', () => {
    const session = boathouse();
    const labels = SAMPLES.filter(({ file }) => file.startsWith('samples/boathouse')).flatMap(
      ({ file, text }) =>
        inlayHints(session, file, { start: 0, end: text.length }, { ...LOADS, reserve: true, plates: true }),
    );
    expect(labels.length).toBeGreaterThan(200);
    expect(
      labels.filter(({ label }) => label.length === 0 || label.length >= 20 || label !== label.trim()),
    ).toEqual([]);
  });
});
