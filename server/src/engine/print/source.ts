/** The way back from what is printed to the text that it comes from, for views that can go there. */

import type { Place } from '../model.js';
import { html, type Markup } from './markup.js';

/** Where an element of a document was written. Files that leave the house carry none of it. */
export type SourcePlace = Place;

/** Attributes of an element that comes from a place; null where it comes from none or nobody asked. */
export type SourceMark = (source: SourcePlace | null | undefined) => Markup | null;

/** For files: no place is written down, as the names of folders and files are nobody's business. */
export const noSource: SourceMark = () => null;

/** `data-file`, `data-start` and `data-end`: offsets in UTF-16 units, as everywhere inside. */
export const sourceData: SourceMark = (source) =>
  source
    ? html` data-file="${source.file}" data-start="${source.span.start}" data-end="${source.span.end}"`
    : null;

/** What a panel shows: the style sheet and the content of `<body>`, without scripts and without inline styles. */
export interface HtmlParts {
  readonly title: string;
  readonly css: string;
  readonly body: string;
}

export interface HtmlPartsOptions {
  /** Whether elements carry their places in the text. */
  readonly sources?: boolean;
}
