import { describe, expect, it } from 'vitest';
import { cellsOf, codes, group, loads, open, resolve, targets, works, workspace } from './studio.js';

const MAXES = 'max: lift, 100kg x1, 2026-11-30\n  max: bells, 20kg x1, 2026-11-30';
const swap = (dose: string, dates = '') => `${MAXES}\n  swap: lift, to bells${dose}${dates}, "shoulder"`;

describe('swaps', () => {
  it('without a dose the sets, reps and effort of the row hold', () => {
    // 6 + 2 = 8: 20 × 29/36 = 16.111, so 16.
    const cells = resolve('  lift: 3x6 r2', { weeks: 1, client: swap('') });
    expect(works(cells)).toEqual(['3x6 r2']);
    expect(targets(cells)).toEqual([16.111]);
    expect(loads(cells)).toEqual([16]);
    expect(cells[0]?.movement?.name).toBe('bells');
    expect(cells[0]?.row.movement).toBe('lift');
  });

  it('a percentage is of the max of the other movement', () => {
    expect(targets(resolve('  lift: 3x5 80%', { weeks: 1, client: swap('') }))).toEqual([16]);
  });

  it('a dose of its own replaces that of the row', () => {
    // 8 + 4 = 12: 20 × 25/36 = 13.889; 13.889 × 1.01 = 14.028 reaches 14.
    const cells = resolve('  lift: 3x6 r2 | 4x', { weeks: 2, client: swap(', 2x8 r4') });
    expect(works(cells)).toEqual(['2x8 r4', '2x8 r4']);
    expect(loads(cells)).toEqual([14, 14]);
  });

  it('fixed loads never carry over', () => {
    const cells = resolve('  lift: 3x5 60kg', { weeks: 1, client: swap('') });
    expect(group(cells[0])).toMatchObject({ sets: 3, reps: 5, loadKg: null, targetKg: null });
    // With an effort beside the load, the effort holds: 5 + 3 = 8, 16.111.
    expect(targets(resolve('  lift: 3x5 60kg r3', { weeks: 1, client: swap('') }))).toEqual([16.111]);
  });

  it('kilogram changes never carry over, in neither direction', () => {
    // The swap holds in week 2 only (2026-12-14).
    const client = swap('', ', from 2026-12-14 until 2026-12-20');
    const cells = resolve('  lift: 3x6 r2 | +5kg | ', { weeks: 3, client });
    expect(cells.map((cell) => cell.movement?.name)).toEqual(['lift', 'bells', 'lift']);
    expect(targets(cells)[1]).toBe(16.111);
    expect(targets(cells)[2]).toBe(80.556);
  });

  it('nor do back-offs in kilograms', () => {
    const cells = resolve('  lift: 1x5 r1 ; 3x5 -10kg', { weeks: 1, client: swap('') });
    expect(group(cells[0], 1)).toMatchObject({ sets: 3, reps: 5, loadKg: null });
    // In percent they do: 20 × 31/36 = 17.222, × 0.9 = 15.5.
    expect(targets(resolve('  lift: 1x5 r1 ; 3x5 -10%', { weeks: 1, client: swap('') }))).toEqual([
      [17.222, 15.5],
    ]);
  });

  it('hold from their first to their last day', () => {
    const client = swap('', ', from 2026-12-14 until 2026-12-21');
    expect(resolve('  lift: 3x6 r2', { client }).map((cell) => cell.movement?.name)).toEqual([
      'lift',
      'bells',
      'bells',
      'lift',
    ]);
  });

  it('get their deload like any row', () => {
    // Two sets of eight with 4 + 2 = 6 left: 14 to failure, 20 × 23/36 = 12.778.
    const cells = resolve('  lift: 3x6 r2', { weeks: 3, block: ', deload 3', client: swap(', 3x8 r4') });
    expect(works(cells)).toEqual(['3x8 r4', '3x8 r4', '2x8 r6']);
    expect(targets(cells)[2]).toBe(12.778);
  });
});

describe('avoid', () => {
  it('is an error wherever it is resolved', () => {
    const client = `${MAXES}\n  avoid: lift, from 2026-12-14 until 2026-12-20, "knee"`;
    const session = open(workspace('  lift: 3x6 r2', { client }));
    const found = session.findings('a.stave').filter((finding) => finding.code === 'avoided');
    expect(found).toHaveLength(1);
    expect(found[0]?.severity).toBe('error');
  });

  it('takes patterns', () => {
    const session = open(workspace('  lift: 3x6 r2', { client: `${MAXES}\n  avoid: squat` }));
    expect(codes(session.findings('a.stave'))).toContain('avoided');
  });
});

describe('sections of one name', () => {
  it('merge for clients, whichever file they stand in', () => {
    const session = open(workspace('  lift: 3x5 80%', { weeks: 1, client: '' }));
    session.setFile('b.stave', 'client  HERON\n  max: lift, 60kg x1, 2026-11-30\n');
    expect(targets(cellsOf(session))).toEqual([48]);
    session.removeFile('b.stave');
    expect(group(cellsOf(session)[0])).toMatchObject({ loadKg: null, issue: 'no-max' });
  });

  it('single-valued lines that differ are errors', () => {
    const session = open(workspace('  lift: 3x5 80%', { client: 'born: 1980\n  units: kg' }));
    session.setFile('b.stave', 'client Heron\n  born: 1981\n  units: kg\n');
    const twice = session.allFindings().filter((finding) => finding.code === 'twice-named');
    expect(twice).toHaveLength(1);
    expect(twice[0]?.severity).toBe('error');
  });

  it('are errors for kits, movements and programs, and the first counts', () => {
    const session = open(workspace('  lift: 3x5 40kg', { weeks: 1 }));
    session.setFile('b.stave', 'kit Boathouse\n  bar: 10kg\nprogram Test\nmovement lift\n  with: dumbbell\n');
    expect(codes(session.findings('b.stave')).filter((code) => code === 'twice-named')).toHaveLength(3);
    expect(loads(cellsOf(session))).toEqual([40]);
  });
});

describe('names', () => {
  it('are compared without regard to case and repeated spaces', () => {
    const session = open(workspace('  LIFT: 3x5 80%', { weeks: 1 }));
    expect(session.findings('a.stave').filter((finding) => finding.code === 'unknown-name')).toEqual([]);
    expect(loads(cellsOf(session))).toEqual([80]);
  });

  it('that nothing defines give no load', () => {
    const session = open(workspace('  lifft: 3x5 80%', { weeks: 1 }));
    expect(group(cellsOf(session)[0])).toMatchObject({ loadKg: null, issue: 'unknown-movement' });
    const [unknown] = session.findings('a.stave').filter((finding) => finding.code === 'unknown-name');
    expect(unknown?.message).toContain('lift');
  });

  it('of the catalogue are known, and a definition of the workspace replaces them', () => {
    const session = open(
      workspace('  back squat: 3x5 80%', { weeks: 1, client: 'max: back squat, 100kg x1, 2026-11-30' }),
    );
    expect(loads(cellsOf(session))).toEqual([80]);
    session.setFile('b.stave', 'movement back squat\n  pattern: squat\n  with: dumbbell\n');
    expect(loads(cellsOf(session))).toEqual([20]);
  });
});

describe('stages', () => {
  const stage = (row: string, client = MAXES) => group(resolve(row, { weeks: 1, client })[0]).stage;

  it('heavy: could be lifted 8 times or fewer', () => {
    expect(stage('  lift: 3x6 r2')).toBe('heavy');
    expect(stage('  lift: 3x5 85%')).toBe('heavy');
    // 10 reps at 80 % can be lifted 8.2 times: more than 8.
    expect(stage('  lift: 3x5 80%')).toBe('load');
  });

  it('counts the smaller of written and predicted reserve', () => {
    // Written 6 + 6; but 85 kg can be lifted 37 - 30.6 = 6.4 times.
    expect(stage('  lift: 3x6 85kg r6')).toBe('heavy');
  });

  it('learn: twelve or more with four in reserve', () => {
    // 9 + 4 = 13: 66.667, so 65: 13.6 times, 4.6 left.
    expect(stage('  lift: 3x9 r4')).toBe('learn');
    // 8 + 4 = 12: 69.444, of which 70 is reached (within 1 %): 11.8 times, 3.8 left.
    expect(stage('  lift: 3x8 r4')).toBe('load');
    expect(stage('  lift: 3x7 r4')).toBe('load');
    // 12 with 2 left: many reps, but not four in reserve.
    expect(stage('  lift: 3x12 r2')).toBe('load');
  });

  it('bodyweight, light packs and bands are for learning', () => {
    const client = 'mass: 68kg\n  max: dip, bw+10kg x5, 2026-11-30';
    expect(stage('  dip: 3x5 bw', client)).toBe('learn');
    expect(stage('  pull: 3x8 band light', client)).toBe('learn');
    expect(stage('  step: 3x8 pack 5kg', client)).toBe('learn');
  });

  it('jumps and sprints of movements marked so are heavy', () => {
    const more = '\nmovement box jump test\n  pattern: jump\n  with: bodyweight\n  stage: heavy\n';
    expect(group(resolve('  box jump test: 3x3 bw', { weeks: 1, more })[0]).stage).toBe('heavy');
  });

  it('the newest sign-off counts, so a lower one takes back', () => {
    const session = (ready: string) =>
      codes(open(workspace('  lift: 3x6 r2', { weeks: 1, ready })).findings('a.stave')).filter(
        (code) => code === 'heavy-early',
      );
    expect(session('heavy squat 2026-10-05')).toEqual([]);
    expect(session('heavy squat 2026-10-05, load squat 2026-11-05')).toEqual(['heavy-early']);
    expect(session('load squat 2026-10-05, heavy squat 2026-12-08')).toEqual(['heavy-early']);
    expect(session('heavy press 2026-10-05')).toEqual(['heavy-early']);
    expect(session('')).toEqual(['heavy-early']);
  });

  it('one finding names all who follow', () => {
    const session = open(workspace('  lift: 3x6 r2', { weeks: 1, ready: '' }));
    session.setFile(
      'b.stave',
      'client Teal\n  trains at: Boathouse\n  max: lift, 80kg x1, 2026-11-30\n  follows: Test, from 2026-12-07, on mon\n',
    );
    const found = session.findings('a.stave').filter((finding) => finding.code === 'heavy-early');
    expect(found).toHaveLength(1);
    expect(found[0]?.message).toContain('Heron');
    expect(found[0]?.message).toContain('Teal');
  });
});
