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

/** For what is there for the eye alone, such as the line at the foot of each page. Text without any is a paragraph. */
export const FOR_THE_EYE = false;

/** A heading of that level. */
export function headingOf(level: 1 | 2 | 3): { readonly structure: Structure } {
  return { structure: { role: `H${level}` } };
}

/** The line above a table that names it, on each of its pages. */
export function captionOf(table: Structure): { readonly structure: Structure } {
  return { structure: { role: 'Caption', parent: table, repeats: true } };
}

/** The cells of a table's head. */
export function headOf(table: Structure): () => { readonly structure: Structure } {
  const row: Structure = { role: 'TR', parent: table };
  return () => ({ structure: { role: 'TH', parent: row, scope: 'Column', repeats: true } });
}

/** The cells of a row, by their column: with `named`, the first one is the heading of the others. */
export function rowOf(
  table: Structure,
  named: boolean,
): (column: number) => { readonly structure: Structure } {
  const row: Structure = { role: 'TR', parent: table };
  return (column) => ({
    structure:
      named && column === 0 ? { role: 'TH', parent: row, scope: 'Row' } : { role: 'TD', parent: row },
  });
}
