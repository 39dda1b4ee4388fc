/** What the parts of a page are, for whoever hears it: headings, paragraphs, tables. The rest is for the eye alone. */

import type { Structure } from '../engine/print/structure.js';
import type { PdfDocument, StructureElement } from './types.js';

/** Marks what is drawn as belonging to elements of the document's structure. */
export class StructureWriter {
  readonly #document: PdfDocument;
  readonly #root: StructureElement;
  readonly #elements = new Map<Structure, { readonly element: StructureElement; readonly page: number }>();
  /** What is being drawn: an element, decoration (null), or nothing yet. */
  #open: Structure | null | undefined;
  #page = 0;

  constructor(document: PdfDocument) {
    this.#document = document;
    this.#root = document.struct('Document');
    document.addStructure(this.#root);
  }

  /** From here on what is drawn belongs to `structure`; null: to nothing. */
  goTo(structure: Structure | null): void {
    const wanted = structure !== null && this.#isRepeated(structure) ? null : structure;
    if (wanted === this.#open) return;
    this.#close();
    this.#open = wanted;
    if (wanted === null) {
      this.#document.markContent('Artifact', { type: 'Layout' });
      return;
    }
    this.#elementOf(wanted).add(this.#document.markStructureContent(wanted.role));
  }

  /** Ends what is open, so that nothing goes on over the end of a page. */
  endPage(): void {
    this.#close();
    this.#page += 1;
  }

  end(): void {
    this.#close();
    this.#root.end();
  }

  #close(): void {
    if (this.#open !== undefined) this.#document.endMarkedContent();
    this.#open = undefined;
  }

  /** The head of a table that comes again on its next page is said once. */
  #isRepeated(structure: Structure): boolean {
    const known = this.#elements.get(structure);
    return structure.repeats === true && known !== undefined && known.page !== this.#page;
  }

  #elementOf(structure: Structure): StructureElement {
    const known = this.#elements.get(structure);
    if (known !== undefined) return known.element;
    const { role, parent, alt, scope } = structure;
    const element = this.#document.struct(role, { alt, scope });
    this.#elements.set(structure, { element, page: this.#page });
    (parent === undefined ? this.#root : this.#elementOf(parent)).add(element);
    return element;
  }
}
