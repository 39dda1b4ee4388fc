/** How wide a text is in the face of the PDF, and how many lines it needs: for the size of a page's text. */

/** Widths of the characters from space to `~` in thousandths of the size: DejaVu Sans Condensed, from the font's file. */
const NORMAL: readonly number[] = [
  286, 360, 414, 754, 572, 855, 702, 247, 351, 351, 450, 754, 286, 325, 286, 303, 572, 572, 572, 572, 572,
  572, 572, 572, 572, 572, 303, 303, 754, 754, 754, 478, 900, 615, 617, 628, 693, 568, 518, 697, 677, 265,
  265, 590, 501, 776, 673, 708, 542, 708, 625, 571, 549, 659, 615, 890, 616, 549, 616, 351, 303, 351, 754,
  450, 450, 551, 571, 495, 571, 554, 316, 571, 570, 250, 250, 521, 250, 876, 570, 550, 571, 571, 370, 469,
  353, 570, 532, 736, 532, 532, 472, 572, 303, 572, 754,
];
/** The same for the bold face. */
const BOLD: readonly number[] = [
  313, 410, 469, 754, 626, 901, 785, 275, 411, 411, 470, 754, 342, 374, 342, 329, 626, 626, 626, 626, 626,
  626, 626, 626, 626, 626, 360, 360, 754, 754, 754, 522, 900, 696, 686, 660, 747, 615, 615, 738, 753, 334,
  334, 697, 573, 896, 753, 765, 659, 765, 693, 648, 614, 730, 696, 993, 694, 651, 652, 411, 329, 411, 754,
  450, 450, 607, 644, 533, 644, 610, 391, 644, 641, 308, 308, 598, 308, 938, 641, 618, 644, 644, 444, 536,
  430, 641, 586, 831, 580, 586, 523, 641, 329, 641, 754,
];
const FIRST = 0x20;
const PLAIN = /^[\x20-\x7e]*$/;
/** `×`, in both faces. */
const TIMES = '\u00d7';
const TIMES_WIDTH = 754;
/** Of a letter of which nothing is known, a wide one of another script. */
const OTHER_WIDTH = 900;

/** Height of a line as a share of the text's size: ascent and descent of the face, and the leading of the documents. */
export const LINE_SHARE = (0.928 + 0.236) * 1.08;

/** Width of a text in points. Letters with marks are as wide as those without. */
export function textWidth(text: string, fontPt: number, bold = false): number {
  const widths = bold ? BOLD : NORMAL;
  let sum = 0;
  for (const character of PLAIN.test(text) ? text : text.normalize('NFD').replace(/\p{M}/gu, '')) {
    const known = widths[(character.codePointAt(0) as number) - FIRST];
    sum +=
      known ??
      (character === TIMES
        ? TIMES_WIDTH
        : character === '\u00b7' || character === '\u00a0'
          ? (widths[0] as number)
          : OTHER_WIDTH);
  }
  return (sum / 1000) * fontPt;
}

/** Lines that a text needs where so many points are free; a word that is wider than that is broken. */
export function lineCount(text: string | null, widthPt: number, fontPt: number, bold = false): number {
  if (text === null || text === '') return 0;
  const space = textWidth(' ', fontPt, bold);
  let lines = 1;
  let used = 0;
  for (const word of text.split(/[ \n]+/)) {
    const width = textWidth(word, fontPt, bold);
    if (used > 0 && used + width > widthPt) {
      lines += 1;
      used = 0;
    }
    if (width > widthPt) {
      const more = Math.ceil(width / widthPt) - 1;
      lines += more;
      used = width - more * widthPt + space;
    } else used += width + space;
  }
  return lines;
}
