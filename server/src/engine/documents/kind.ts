/** What can be made from the resolved plans, for an editor's panel and for export: one entry for each kind. */

import type { ClientPlan, IsoDate, World } from '../model.js';
import type { PlanDocument } from '../print/document.js';
import type { Paper, PaperSize } from '../print/paper/document.js';
import type { HtmlParts, HtmlPartsOptions } from '../print/source.js';
import type { EngineSession } from '../session.js';
import type { Mistakes } from './mistakes.js';

export type DocumentFormat = 'html' | 'pdf' | 'ics' | 'csv' | 'json' | 'md';

/** What a document is asked for with. */
export interface DocumentInput {
  readonly session: EngineSession;
  /** Key of the client; null for a document about everyone. */
  readonly client: string | null;
  /** Date of printing, and the day from which "the next session" is looked for. */
  readonly today: IsoDate;
  readonly size: PaperSize;
  /** Large print, 16 points. */
  readonly large: boolean;
  /** The day of a document that is about one day; null: the next one that has something. */
  readonly date: IsoDate | null;
  /** How many mistakes a plan may rest on. */
  readonly mistakes: Mistakes;
}

/** One document, ready to be drawn. */
export type Drawing =
  | {
      readonly form: 'plan';
      readonly document: PlanDocument;
      readonly plan: ClientPlan;
      readonly world: World;
      readonly size: PaperSize;
      readonly large: boolean;
      readonly printedOn: IsoDate;
    }
  | { readonly form: 'paper'; readonly paper: Paper }
  /** A page that exists as HTML alone. */
  | {
      readonly form: 'page';
      readonly parts: (options: HtmlPartsOptions) => HtmlParts;
      readonly file: () => string;
    };

export interface MadeDocument {
  /** Of the client or the place; the file is named after it. */
  readonly name: string;
  /** What the file name ends with: `plan`, `card-2026-12-07`. */
  readonly suffix: string;
  readonly drawing: Drawing;
}

/** A kind of document. */
export interface DocumentKind {
  /** Lasting, for messages and what is remembered: `plan`. */
  readonly id: string;
  /** For a list to choose from: `Plan`. */
  readonly title: string;
  /** Whether it is about one client, or about everyone of the folder. */
  readonly about: 'client' | 'everyone';
  /** What it can be written as. */
  readonly formats: readonly DocumentFormat[];
  /** The days that it can be asked for, in order; null where it is not about one day. */
  readonly dates: ((input: DocumentInput) => readonly IsoDate[]) | null;
  /** The documents; none when there is nothing to show. */
  readonly make: (input: DocumentInput) => readonly MadeDocument[];
}
