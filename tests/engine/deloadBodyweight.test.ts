import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';

const workspace = (cell: string) => `kit Loft
  pack: to 16kg by 1kg
client Siskin
  mass: 60kg
  trains at: Loft
  max: chin-up, bw+10kg x4 r2, 2026-11-01
  follows: Rope, from 2026-12-07, on mon
movement chin-up
  pattern: pull
  with: bodyweight
  lifts: 100% of mass
program Rope
block One, 2 weeks, heavy, deload 2
day Pull
  chin-up: ${cell}
`;

const deload = (cell: string) => {
  const session = createSession();
  session.setFile('rope.stave', workspace(cell));
  return session.plan('siskin')?.sessions[1]?.cells[0]?.groups[0];
};

describe('deload of a loaded bodyweight movement', () => {
  it('takes two more in reserve from the whole target, body mass included', () => {
    // 6 to failure becomes 8: 70 kg × (29/36) / (31/36) = 65.48 kg, 5.48 kg on top of 60 kg; +1 % of the total reaches
    // 6.13 kg, so 6 kg would count as reached, and 5 kg is nearer to the target.
    const group = deload('4x4 bw+10kg r2');
    expect(group?.targetKg).toBeCloseTo((70 * 29) / 31 - 60, 9);
    expect(group).toMatchObject({ sets: 2, reps: 4, writtenReserve: 4 });
    expect(group?.loadKg).toBe(5);
  });
  it('is bodyweight alone where that lies below it', () => {
    // 61 kg × 29/31 = 57.06 kg is below the 60 kg of the body: nothing is added and nothing taken off.
    expect(deload('4x4 bw+1kg r2')).toMatchObject({ sets: 2, loadKg: null, issue: null });
  });
  it('takes 10 % off the added load without a reserve', () => {
    expect(deload('4x4 bw+10kg')).toMatchObject({ sets: 2, loadKg: 9 });
  });
});
