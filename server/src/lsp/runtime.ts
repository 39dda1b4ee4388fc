import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import type { CalendarDocument } from '../engine/export/calendar.js';
import type { Paper } from '../engine/print/paper/document.js';

/** What the language server needs from the platform it runs on. Files are named by URI. */
export interface Runtime {
  /** The date where the coach is, `YYYY-MM-DD`. */
  today(): string;
  /** URIs of all `.stave` files in a folder and below. Empty when the folder cannot be read. */
  listFiles(folderUri: string): Promise<readonly string[]>;
  /** The text of a file, or undefined when it is not there or cannot be read. */
  readFile(uri: string): Promise<string | undefined>;
  /** URI of the page that explains a rule; undefined where pages have none. */
  rulePageUri(code: string): string | undefined;
  /** Writes files into a folder, each one whole or not at all; returns their URIs. */
  writeFiles(folderUri: string, files: readonly OutputFile[]): Promise<readonly string[]>;
  /** The catalogue of a language as it is shipped, JSON; undefined where there is none. */
  readonly texts?: (language: string) => Promise<string | undefined>;
  /** Draws a PDF; undefined where the platform cannot. */
  readonly drawPdf?: (definition: TDocumentDefinitions) => Promise<DrawnPdf>;
  /** The paper with the largest text with which it stays on its pages; undefined where the platform cannot tell. */
  readonly fitPaper?: (paper: Paper) => Promise<Paper>;
  /** A calendar as a file; undefined where the platform cannot write one. */
  readonly calendarText?: (calendar: CalendarDocument, madeAt: Date) => Promise<string>;
}

/** A PDF and what could not be drawn in it. */
export interface DrawnPdf {
  readonly bytes: Uint8Array;
  /** Characters that the fonts lack; a stand-in is printed for each. */
  readonly missing: readonly string[];
}

/** A file to write: its name inside the folder, and what it holds. */
export interface OutputFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}
