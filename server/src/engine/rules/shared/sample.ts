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

/** A client at the boathouse who follows the program Winter from 2026-12-07, with lines of her own. */
export function clientLines(name: string, lines: readonly string[], on = 'mon'): string {
  return [
    `client ${name}`,
    'trains at: Boathouse',
    ...lines,
    `follows: Winter, from 2026-12-07, on ${on}`,
  ].join('\n  ');
}

/** The program Winter with one block and the rows of its days. */
export function winter(block: string, days: Readonly<Record<string, readonly string[]>>): string {
  const written = Object.entries(days).map(([day, rows]) => [`day ${day}`, ...rows].join('\n  '));
  return [`program Winter\n\nblock ${block}`, ...written].join('\n');
}
