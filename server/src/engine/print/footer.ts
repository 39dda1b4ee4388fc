/** The line at the foot of each page: whose it is, what of, when it was printed. */

/** A longer name would leave no room for the rest of the line. */
const MOST_LETTERS = 48;

/** The parts with a dot between them; what is empty is left out, and what is very long is cut there. */
export function footerOf(...parts: readonly string[]): string {
  return parts
    .filter((part) => part !== '')
    .map((part) => {
      const letters = [...part];
      return letters.length <= MOST_LETTERS ? part : `${letters.slice(0, MOST_LETTERS - 1).join('')}\u2026`;
    })
    .join(' · ');
}
