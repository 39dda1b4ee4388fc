/** Parts of the example workspaces that several rules share. Names of people are birds, all data is made up. */

/** A small kit with a 15 kg bar. */
export const BOATHOUSE = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 2kg to 20kg by 2kg
`;

/** A movement of the squat pattern with a barbell. */
export const BOX_SQUAT = `movement box squat
  pattern: squat
  with: barbell
`;

/** Sections one under the other, parted by an empty line. */
export function workspace(...sections: readonly string[]): string {
  return `${sections.map((section) => section.trim()).join('\n\n')}\n`;
}
