/** The worked example of the notation: one client, one block, numbers that can be checked by hand. */
export const people = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 2kg to 20kg by 2kg

client Heron
  born: 1979-03
  trains at: Boathouse
  ready: heavy squat 2026-10-05, load press 2026-06-01
  max: back squat, 47.5kg x5 r2, 2026-11-23
  max: overhead press, 22.5kg x6 r2, 2026-11-23
  follows: Harbour winter, from 2026-12-07, on mon thu
`;

export const program = `program Harbour winter
  aim: strength

block Keel, 5 weeks, heavy, deload 5
day Lower
  back squat:     3x6 r2 warm rest 3min | 4x | x5        |  |
day Upper
  overhead press: 3x8 r3                |    | +2% weekly
`;

export const example = `${people}\n${program}`;
