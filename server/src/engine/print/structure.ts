/** What a part of a PDF is, for screen readers. Nodes of a definition carry it as `structure`; those inside inherit it. */

/** The names are the standard structure types of PDF (ISO 32000-1, 14.8.4). */
export interface Structure {
  readonly role: 'H1' | 'H2' | 'H3' | 'P' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure' | 'Caption';
  /** The element that it lies in; the document where there is none. */
  readonly parent?: Structure;
  /** What a picture shows. */
  readonly alt?: string;
  /** Whether a heading of a table is that of a column or of a row. */
  readonly scope?: 'Column' | 'Row';
  /** Comes again at the top of the table's next page, where it is not said again. */
  readonly repeats?: boolean;
}
