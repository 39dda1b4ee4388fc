import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt, stave } from './run.js';

beforeAll(ensureBuilt, 60_000);

const winter = 'samples/winter/winter.stave';

describe('stave explain of a cell', () => {
  it('tells the reasons step by step, each with its number, its line and its source', () => {
    const { status, stdout, stderr } = stave(['explain', `${winter}:21:48`]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain('Back squat for Heron\nHarbour winter, Keel, week 3, Lower, 2026-12-21\n');
    expect(stdout).toContain(`1. Max: 47.5 kg × 5`);
    expect(stdout).toContain(`   ${winter}:12: max: back squat, 47.5kg x5 r2, 2026-11-23`);
    expect(stdout).toMatch(/2\. Formula: 57 kg\n {3}Brzycki: 7 reps are 83\.3 % .*\n {3}Source: Brzycki M\./);
    expect(stdout).toContain('6. Kit and load: 47.5 kg');
    expect(stdout).not.toMatch(/Target: Target/);
  });

  it('takes a line alone, a client and a day', () => {
    expect(stave(['explain', `${winter}:21`]).stdout).toContain('week 1');
    const given = ['--for', 'heron', '--date', '2027-01-04'];
    const { stdout } = stave(['explain', `${winter}:21`, ...given]);
    expect(stdout).toContain('week 5 (deload)');
    expect(stdout).toContain('2 × 5 at 42.5 kg');
  });

  it('looks names up in another folder', () => {
    const program = path.join('samples', 'boathouse', 'programs', 'storm-cycle.stave');
    const { status, stderr } = stave(['explain', `${program}:15`]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^stave: No load to explain\. Nobody follows/);
    const { stdout } = stave(['explain', `${program}:15`, '--in', 'samples/boathouse', '--for', 'Wren']);
    expect(stdout).toMatch(/for Wren\n/);
  });

  it.each([
    [[`${winter}:3`], 'No cell here. Put the cursor into a cell of a program'],
    [[`${winter}:99:1`], 'has no line 99 of that length'],
    [[`${winter}:21:999`], 'has no line 21 of that length'],
    [['nowhere.stave:3:1'], 'nowhere.stave'],
    [[`${winter}:21`, '--for', 'Hern'], 'Did you mean "Heron"?'],
    [
      [`${winter}:21`, '--date', '2026-12-08'],
      'Heron does not do this row on 2026-12-08. She does on 2026-12-07,',
    ],
  ])('%j is misuse, in one line', (given, words) => {
    const { status, stdout, stderr } = stave(['explain', ...given]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr.trimEnd()).not.toContain('\n');
    expect(stderr).toContain(words);
  });
});
