import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../server/src/engine/views/format.js';
import { worksOf } from '../../server/src/engine/views/refactor/trial.js';
import { changeWeeks } from '../../server/src/engine/views/refactor/weekColumns.js';
import { SAMPLES, WORKED } from './samples.js';
import { SMALL, sessionOf } from './workspace.js';

type Change = 'insert' | 'remove';

function result(text: string, change: Change, week: number) {
  const session = sessionOf({ ...SMALL, 'winter.stave': text });
  return changeWeeks({ session, file: 'winter.stave', offset: text.indexOf('block '), change, week });
}

/** The program after a week was put in behind `week`, or after `week` was taken out. */
function changed(text: string, change: Change, week: number): string {
  const found = result(text, change, week);
  if (!found.ok) throw new Error(found.because);
  return applyEdits(text, found.edits);
}

const block = (header: string, ...rows: string[]) =>
  `program Winter\n\nblock Keel, ${header}\nday Lower\n${rows.map((row) => `  ${row}\n`).join('')}`;

describe('putting a week in', () => {
  it('repeats the week before it, in all days, and moves deloads, jumps, effort and rounds', () => {
    const before =
      'program Winter\n\nblock Keel, 5 weeks, heavy, deload 2 5\n  effort: r3 | | r2\nday Lower\n  back squat: 3x6 | 4x | x5\n  box squat:  3x8 | wk4 4x\ncircuit Round, 3 rounds\n  rounds: 2 | 3 | 4\n  push-up: x8 | x9 | x10\nend\n';
    const after =
      'program Winter\n\nblock Keel, 6 weeks, heavy, deload 3 6\n  effort: r3 | | | r2\nday Lower\n  back squat: 3x6 | | 4x | x5\n  box squat:  3x8 | wk5 4x\ncircuit Round, 3 rounds\n  rounds: 2 | | 3 | 4\n  push-up: x8 | | x9 | x10\nend\n';
    const spaces = (text: string) => text.replace(/ +/g, ' ');
    expect(spaces(changed(before, 'insert', 1))).toBe(spaces(after));
  });

  it('keeps aligned columns aligned', () => {
    const before = block('3 weeks, heavy', 'back squat: 3x6 r2 | 4x | x5', 'box squat:  3x8 r3 | 4x');
    expect(changed(before, 'insert', 1)).toBe(
      block('4 weeks, heavy', 'back squat: 3x6 r2 |  | 4x | x5', 'box squat:  3x8 r3 |  | 4x'),
    );
  });

  it('is refused where a weekly change would happen once more', () => {
    const found = result(block('4 weeks, heavy', 'back squat: 3x6 r3 | +5% weekly'), 'insert', 2);
    expect(found.ok ? '' : found.because).toMatch(
      /^Nothing was changed: week 3 of back squat \(day Lower\) rests on this week and would come to other work/,
    );
  });
});

describe('taking a week out', () => {
  it('carries over what the week said', () => {
    const before = block('4 weeks, heavy', 'back squat: 3x6 r2 warm | 4x rest 3min | x5 |');
    expect(changed(before, 'remove', 2)).toBe(
      block('3 weeks, heavy', 'back squat: 3x6 r2 warm | 4x5 rest 3min |'),
    );
    expect(changed(before, 'remove', 1)).toBe(
      block('3 weeks, heavy', 'back squat: 4x6 r2 rest 3min warm | x5 |').replace(
        '4x6 r2 rest 3min warm',
        '4x6 r2 warm rest 3min',
      ),
    );
  });

  it('drops what was for that week alone', () => {
    expect(changed(block('3 weeks, heavy', 'back squat: 3x6 r2 | - | 4x'), 'remove', 2)).toBe(
      block('2 weeks, heavy', 'back squat: 3x6 r2 | 4x'),
    );
    expect(changed(block('4 weeks, heavy, deload 3', 'back squat: 3x6 r2 | 4x | x3 | r1'), 'remove', 3)).toBe(
      block('3 weeks, heavy', 'back squat: 3x6 r2 | 4x | r1'),
    );
  });

  it('adds up changes of load', () => {
    expect(changed(block('3 weeks, heavy', 'back squat: 3x6 60% | +2% | +3%'), 'remove', 2)).toBe(
      block('2 weeks, heavy', 'back squat: 3x6 60% | +5.06%'),
    );
    expect(changed(block('3 weeks, heavy', 'back squat: 3x6 40kg | +5kg | +2.5kg'), 'remove', 1)).toBe(
      block('2 weeks, heavy', 'back squat: 3x6 45kg | +2.5kg'),
    );
  });

  it('is refused where a later week would come to other work', () => {
    const found = result(block('4 weeks, heavy, deload 3', 'back squat: 3x6 r2 | 5x r0 | |'), 'remove', 2);
    expect(found.ok ? '' : found.because).toMatch(/^Nothing was changed: week [34] of back squat/);
    const weekly = result(block('4 weeks, heavy', 'back squat: 3x6 r3 | +5% weekly'), 'remove', 2);
    expect(weekly.ok ? '' : weekly.because).toMatch(/^Nothing was changed: week 3 of back squat/);
  });

  it('is refused for weeks that were trained, for blocks that others are like, and for the only week', () => {
    const refused = (text: string, change: Change, week: number) => {
      const found = result(text, change, week);
      return found.ok ? '' : found.because;
    };
    const keel = block('2 weeks, heavy', 'back squat: 3x6 r2 | 4x');
    expect(refused(`${keel}\nlog Heron, 2026-12-07, Lower\n  as planned\n`, 'remove', 1)).toMatch(
      /^Heron has trained week 1/,
    );
    expect(refused(`${keel}\nblock Mast, like Keel\n`, 'insert', 1)).toMatch(
      /^Block Mast of Winter is like this/,
    );
    expect(refused(block('1 weeks, heavy', 'back squat: 3x6 r2'), 'remove', 1)).toMatch(/one week only/);
  });
});

describe('every week of the sample programs', () => {
  it('leaves the other weeks as they are for a newcomer, or is refused with a reason', () => {
    // Without the logs of the sample, which rightly hold most of its weeks in place.
    const own = SAMPLES.filter(({ file }) => /boathouse\/(?:programs|kits)/.test(file));
    const newcomer = `client Tern
  trains at: Boathouse studio
  mass: 70kg, 2026-01-01
  ready: heavy all 2026-01-01
`;
    const files = Object.fromEntries(own.map(({ file, text }) => [file, text]));
    let done = 0;
    for (const { file, text } of own.filter((each) => each.file.includes('programs'))) {
      const name = /^program (.+)$/m.exec(text)?.[1];
      const tern = `${newcomer}  follows: ${name}, from 2026-12-07, on mon wed fri\n`;
      const session = sessionOf({ ...files, 'tern.stave': tern });
      for (const { index } of text.matchAll(/^block /gm)) {
        for (const change of ['insert', 'remove'] as const) {
          for (const week of [1, 2, 4]) {
            const found = changeWeeks({ session, file, offset: index, change, week });
            if (!found.ok) {
              expect(found.because).toMatch(/\.$/);
              continue;
            }
            done++;
            const edited = applyEdits(text, found.edits);
            const now = sessionOf({ ...files, [file]: edited, 'tern.stave': tern });
            expect(now.tree(file)?.problems).toEqual(session.tree(file)?.problems);
            const by = change === 'insert' ? 1 : -1;
            const asked = (each: typeof session) =>
              [...worksOf(each, ['tern']).values()].map(({ asked: work }) => work).length;
            expect(Math.sign(asked(now) - asked(session))).toBe(by);
          }
        }
      }
    }
    expect(done).toBeGreaterThan(5);
  }, 60_000);

  it('keeps the loads of the worked example', () => {
    const session = sessionOf({ 'a.stave': WORKED });
    const offset = WORKED.indexOf('block');
    const found = changeWeeks({ session, file: 'a.stave', offset, change: 'remove', week: 2 });
    const now = sessionOf({ 'a.stave': found.ok ? applyEdits(WORKED, found.edits) : found.because });
    const loads = (row: string) =>
      [...worksOf(now, ['heron']).values()].filter(({ key }) => key.row === row).map(({ loadKg }) => loadKg);
    expect(loads('back squat')).toEqual([45, 47.5, 47.5, 42.5]);
    expect(loads('overhead press')).toEqual([20, 20, 20, 17.5]);
  });
});
