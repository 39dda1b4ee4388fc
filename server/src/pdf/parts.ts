/** The parts of pdfmake, whoever loads them: some loaders hand over a CommonJS module, some what it calls its default. */

import layoutModule from 'pdfmake/js/LayoutBuilder.js';
import documentModule from 'pdfmake/js/PDFDocument.js';
import rendererModule from 'pdfmake/js/Renderer.js';
import svgModule from 'pdfmake/js/SVGMeasure.js';
import inlinesModule from 'pdfmake/js/TextInlines.js';

function inner<Part>(module: { readonly default: Part }): Part {
  return 'default' in module ? module.default : (module as Part);
}

export const PDFDocument = inner(documentModule);
export const LayoutBuilder = inner(layoutModule);
export const Renderer = inner(rendererModule);
export const SVGMeasure = inner(svgModule);
export const TextInlines = inner(inlinesModule);
