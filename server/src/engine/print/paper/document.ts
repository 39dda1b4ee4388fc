/**
 * Documents other than the client's plan as plain data: pages with headings, tables and pictures. HTML and PDF are two
 * ways to draw the same document.
 */

import type { Picture } from '../../plots/svg.js';
import type { SourcePlace } from '../source.js';

export type PaperSize = 'a4' | 'letter';

/** Width and height in points, upright. Half of A4 and half of Letter are there for cards. */
export const PAGE_POINTS: Readonly<Record<PaperSize | 'a5' | 'half-letter', readonly [number, number]>> = {
  a4: [595.28, 841.89],
  letter: [612, 792],
  a5: [419.53, 595.28],
  'half-letter': [396, 612],
};

export interface Paper {
  readonly title: string;
  readonly page: keyof typeof PAGE_POINTS;
  readonly landscape: boolean;
  /** Beside the page number on every page. */
  readonly footer: string;
  /** A section begins a page, if it does not flow. */
  readonly sections: readonly PaperSection[];
  /** Size of the text in points. */
  readonly fontPt: number;
  /** Each section has to stay on one page: a fuller one is set smaller, down to `leastFontPt`. */
  readonly onePage: boolean;
  readonly leastFontPt: number;
  /** What is written where even the smallest text leaves no room: the same document with less said in it. */
  readonly shorter?: Paper;
}

export interface PaperSection {
  readonly heading: string;
  /** Right of the heading, or under it. */
  readonly aside: string | null;
  /** Lines that must not be missed. */
  readonly notes: readonly string[];
  readonly texts: readonly string[];
  readonly blocks: readonly Block[];
  /** Goes on below the section before it, in place of beginning a page. */
  readonly flows?: boolean;
  /** Smaller text at the end. */
  readonly closing: readonly string[];
}

export type Block =
  | {
      readonly kind: 'heading';
      readonly text: string;
      readonly aside: string | null;
      readonly source?: SourcePlace | null;
    }
  | { readonly kind: 'text'; readonly text: string; readonly source?: SourcePlace | null }
  | { readonly kind: 'table'; readonly table: Table }
  /** Pictures side by side. */
  | { readonly kind: 'pictures'; readonly pictures: readonly Picture[] }
  /** Lines to fill in. */
  | { readonly kind: 'lines'; readonly labels: readonly string[] };

export interface Table {
  /** What the table is, for whoever hears it; not printed. */
  readonly name: string;
  /** Heading that stays with the table and comes again on its next page. */
  readonly caption?: {
    readonly text: string;
    readonly aside: string | null;
    readonly source?: SourcePlace | null;
  };
  /** Share is of the width of the table. */
  readonly columns: readonly { readonly title: string; readonly share: number }[];
  readonly rows: readonly Row[];
}

export type Row = (
  | /** `more` goes on with the row before: no line between. The first cell names the row. */
  { readonly kind: 'row'; readonly cells: readonly (readonly Part[])[] }
  | { readonly kind: 'more'; readonly cells: readonly (readonly Part[])[] }
  /** A line of text over the whole width; `band` has a ground. */
  | { readonly kind: 'band'; readonly text: string; readonly aside: string | null }
  | { readonly kind: 'words'; readonly text: string; readonly aside: string | null }
  /** Lines over the whole width that belong to the row above; the parts of a line stand one after the other. */
  | { readonly kind: 'under'; readonly lines: readonly (readonly WordPart[])[] }
) & {
  /** Where the row was written. */
  readonly source?: SourcePlace | null;
};

/** Words of a cell. */
export interface WordPart {
  readonly kind: 'big' | 'plain' | 'small' | 'cue';
  readonly text: string;
  readonly source?: SourcePlace | null;
}

export type Part =
  | WordPart
  /** Small words one after the other. */
  | { readonly kind: 'run'; readonly parts: readonly WordPart[] }
  | { readonly kind: 'boxes'; readonly count: number }
  /** A line to write a load on. */
  | { readonly kind: 'line' }
  /** Stands beside the big words before it, where both have room. */
  | { readonly kind: 'picture'; readonly picture: Picture };

/** Parts of one kind for the texts that are there. */
export function partsOf(
  kind: 'big' | 'plain' | 'small' | 'cue',
  ...texts: readonly (string | null)[]
): readonly WordPart[] {
  return texts.flatMap((text) => (text === null || text === '' ? [] : [{ kind, text }]));
}

/** The texts among `parts` with the place that they come from. */
export function placed(source: SourcePlace | null, parts: readonly Part[]): readonly Part[] {
  return parts.map((part) => ('text' in part ? { ...part, source } : part));
}
