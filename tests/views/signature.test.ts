import { describe, expect, it } from 'vitest';
import { parse, VOCABULARY } from '../../grammar/index.js';
import { statementParts } from '../../grammar/statementParts.js';
import { signatureAt } from '../../server/src/engine/views/signature.js';
import { cursor } from './samples.js';
import { sessionOf } from './workspace.js';

function at(marked: string) {
  const { text, offset } = cursor(marked);
  return signatureAt(sessionOf({ 'a.stave': text }), 'a.stave', offset);
}
const row = (line: string) => at(`program P\nblock B, 4 weeks\nday D\n  ${line}`);
const client = (line: string) => at(`client Heron\n  ${line}`);
/** The piece of the label that the cursor is at. */
const active = (found: ReturnType<typeof at>) =>
  found?.active === null || !found
    ? null
    : found.label.slice(...(found.parameters[found.active]?.label ?? []));

describe('what may come next in a cell', () => {
  it('begins with sets and reps, then asks how hard, then offers what carries along', () => {
    expect(active(row('back squat: ‸'))).toBe('3x6');
    expect(active(row('back squat: 3x6 ‸'))).toBe('r2');
    expect(active(row('back squat: 3x6 r2 ‸'))).toBe('/side');
    expect(active(row('back squat: 3x6 r2 /side ‸'))).toBe('rest 2min');
    expect(active(row('back squat: 3x6 60% ‸'))).toBe('/side');
  });

  it('says what kind of item stands under the cursor, a half-written one too', () => {
    expect(active(row('back squat: 3x6 r‸2 rest 2min'))).toBe('r2');
    expect(active(row('back squat: 3x6 r2 rest 2m‸in'))).toBe('rest 2min');
    expect(active(row('back squat: 3x6 r2 rest ‸'))).toBe('rest 2min');
    expect(active(row('back squat: 3x6 r2 tempo‸'))).toBe('tempo 3-1-1');
    expect(active(row('back squat: 3x6 42.5‸kg'))).toBe('80%');
  });

  it('offers changes, jumps and endings only in later cells', () => {
    const first = row('back squat: ‸');
    const later = row('back squat: 3x6 r2 | ‸');
    expect(first?.label).not.toContain('+2%');
    expect(first?.label).not.toContain('wk5');
    expect(later?.label).toContain('+2%');
    expect(later?.help).toMatch(/changes from the week before/);
    expect(active(row('back squat: 3x6 r2 | +2‸%'))).toBe('+2%');
  });

  it('starts again behind a semicolon', () => {
    expect(active(row('back squat: 1x5 r1 ; ‸'))).toBe('3x6');
  });

  it('explains every kind of the vocabulary, each in one place', () => {
    const later = row('back squat: 3x6 r2 | ‸');
    const said = later?.parameters.map(({ help }) => help).join('\n') ?? '';
    for (const { help } of VOCABULARY.cell) expect(said.split(help).length, help).toBeGreaterThanOrEqual(2);
    expect(later?.parameters.every(({ help }) => help !== '')).toBe(true);
  });

  it('is silent in notes and quotes, in names, and in lines without cells', () => {
    expect(row('back squat: 3x6 r2 -- ‸')).toBeNull();
    expect(row('back squat: 3x6 "he‸lp"')).toBeNull();
    expect(row('back sq‸uat: 3x6')).toBeNull();
    expect(row('effort: ‸')).toBeNull();
  });
});

describe('what may come next in a line of a client', () => {
  it('follows the commas', () => {
    expect(active(client('max: ‸'))).toBe('back squat');
    expect(active(client('max: back squat, ‸'))).toBe('47.5kg x5 r2');
    expect(active(client('max: back squat, 47.5kg x5, ‸'))).toBe('2026-11-23');
  });

  it('knows a piece by its first word where pieces before it are left out', () => {
    expect(active(client('swap: back squat, to box squat, from‸'))).toBe('from 2026-10-01 until 2026-12-01');
    expect(active(client('swap: back squat, to box squat, "kn‸'))).toBeNull();
    expect(active(client('follows: Winter, on mon‸'))).toBe('on mon thu');
    expect(active(client('away: 2026-12-20 to 2026-12-27, ke‸ep'))).toBe('back at 80% 90%');
  });

  it('knows the pieces of a swap in a log', () => {
    const log = (line: string) => at(`log A, 2026-12-08\n  ${line}\n`);
    expect(active(log('swap: back squat, t‸'))).toBe('to leg press');
    expect(active(log('swap: back squat, to leg press, 60‸'))).toBe('60kg 10 10 10 r3');
    expect(active(log('swap: back squat, to leg press, "ra‸'))).toBeNull();
    expect(active(log('lift: 60‸'))).toBeNull();
  });

  it('has a meaning for each piece of the example, and the example reads without a problem', () => {
    const inClient = ['max', 'follows', 'swap', 'away', 'avoid'].map((word) => ['client', word] as const);
    for (const [section, word] of [...inClient, ['log', 'swap'] as const]) {
      const found = statementParts(word, section);
      expect(found?.parts.map(({ text }) => text).join(', ')).toBe(
        found?.entry.example.slice(word.length + 2),
      );
      const opener = section === 'log' ? 'log A, 2026-12-08' : 'client A';
      expect(parse(`${opener}\n  ${found?.entry.example}\n`).problems).toEqual([]);
    }
  });
});
