import type { Location, Position } from 'vscode-languageserver-types';

/** Requests of our own, beside those of the protocol. */
export const statusRequest = 'stave/status';
/** What the panel beside the text shows. Sent by the extension, never by the panel itself. */
export const previewRequest = 'stave/preview';
/** All findings of a folder, for the tasks of the editor. */
export const checkRequest = 'stave/check';
/** Sent to the client when what `stave/status` or `stave/preview` answers may have changed. */
export const statusChanged = 'stave/statusChanged';

/** Answer to `stave/status`: who follows the programs of a file, and whose loads its hints show. */
export interface Status {
  /** All clients of the folder, those who follow a program of this file first. */
  readonly clients: readonly StatusClient[];
  /** Key of the client whose loads are shown in this file; null when there is nobody to show. */
  readonly shown: string | null;
  /** Whether the coach chose her, or she is just the first. */
  readonly chosen: boolean;
}

export interface StatusClient {
  readonly key: string;
  readonly name: string;
  /** The programs she follows, by name. */
  readonly follows: readonly string[];
  /** Whether she follows a program that this file writes. */
  readonly inFile: boolean;
}

/** Answer to `stave/preview`: what there is to choose from, and the chosen document or why there is none. */
export interface Preview {
  readonly kinds: readonly PreviewKind[];
  readonly clients: readonly StatusClient[];
  /** Id of the kind that is shown. */
  readonly kind: string;
  /** Key of the client; null when there is nobody. */
  readonly client: string | null;
  /** Days that the document can be about, in order; empty where it is not about one day. */
  readonly dates: readonly { readonly date: string; readonly title: string }[];
  /** The day that was asked for; null: the next one. */
  readonly date: string | null;
  /** What the coach should know of the document that is shown. */
  readonly notice: string | null;
  readonly page: PreviewPage | null;
  /** In place of a page: what is missing, and what to do. */
  readonly empty: { readonly heading: string; readonly text: string } | null;
}

export interface PreviewKind {
  readonly id: string;
  readonly title: string;
  /** About one client; else about everyone of the folder. */
  readonly aboutClient: boolean;
  readonly hasDates: boolean;
  /** What it can be written as. */
  readonly formats: readonly string[];
}

export interface PreviewPage {
  readonly title: string;
  /** For a sheet in a shadow tree: its root is `:host`. */
  readonly css: string;
  /** Elements that come from the text have `data-at`: number of the source, then line and character of both ends. */
  readonly body: string;
  /** Addresses of the files, by their number. */
  readonly sources: readonly string[];
}

/** What the panel of reasons shows: why a load is what it is, or what would be if something else were written. */
export const whyRequest = 'stave/why';

/** Answer to `stave/why`. */
export interface Why {
  readonly view: 'why' | 'if';
  /** Whether there is something to show; else the page says what to do. */
  readonly found: boolean;
  readonly title: string;
  readonly clients: readonly { readonly key: string; readonly name: string }[];
  readonly client: string | null;
  /** Days on which she does the row that is explained, in order. */
  readonly days: readonly { readonly date: string; readonly title: string }[];
  readonly day: string | null;
  /** What can be written differently; empty where reasons are told. */
  readonly fields: readonly WhyField[];
  /** The page without its frame; elements that come from the text have `data-at` as in a preview. */
  readonly body: string;
  /** Addresses of the files, by their number. */
  readonly sources: readonly string[];
  /** The same in a sentence, for those who do not see the page change. */
  readonly spoken: string;
}

export interface WhyField {
  readonly id: string;
  /** Fields of one group stand under one heading. */
  readonly group: string;
  readonly label: string;
  /** As it is written in the file. */
  readonly written: string;
  /** Several lines. */
  readonly long: boolean;
  /** What cannot be taken of what was typed; null where all is well. */
  readonly problem: string | null;
}

// What a coach who starts is asked with, and answered.

export interface StarterOffers {
  /** Those of the folder first, then the shipped ones. */
  readonly kits: readonly { readonly name: string; readonly about: string; readonly known: boolean }[];
}

export interface StarterRead {
  /** What is wrong with an answer; null: nothing. */
  readonly problem: string | null;
  /** How it was read. */
  readonly words: string | null;
  /** What has to be signed off before this movement is loaded; null: nothing. */
  readonly needs: { readonly pattern: string; readonly movement: string } | null;
}

interface StarterText {
  /** In the folder, with `/`. */
  readonly path: string;
  readonly text: string;
}

export interface StarterFiles {
  /** The client's own file first. */
  readonly files: readonly StarterText[];
  /** Key of the client. */
  readonly client: string;
}

export interface StarterPrograms {
  readonly clients: readonly StatusClient[];
  readonly programs: readonly { readonly id: string; readonly title: string; readonly about: string }[];
}

export interface StarterFollow {
  /** Address of the folder that the files go to. */
  readonly folder: string;
  readonly program: string;
  readonly files: readonly StarterText[];
  /** The line in the client's file. */
  readonly edit: { readonly uri: string; readonly position: Position; readonly newText: string };
  /** Date of the first day. */
  readonly from: string;
}

export interface StarterPlaces {
  readonly load: Location | null;
  readonly finding: Location | null;
  /** Code of the finding. */
  readonly code: string | null;
}
