/** Parts of the drawings. They stand in HTML as they are; in a PDF `currentColor` is black. */

import { html, type Markup } from '../print/markup.js';

/** A drawing with its size in points and a text that says the same. */
export interface Picture {
  readonly svg: string;
  readonly alt: string;
  readonly widthPt: number;
  readonly heightPt: number;
}

/** Greys that stay apart on paper, on a white and on a dark screen. */
export const MID_GREY = '#8c8c8c';

/** A number for a coordinate: two decimals are finer than any printer. */
export function at(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export interface TextStyle {
  readonly size?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
}

/** A label. */
export function label(x: number, y: number, text: string, style: TextStyle = {}): Markup {
  const { size = 7.5, anchor = 'start', bold = false } = style;
  return html`<text x="${at(x)}" y="${at(y)}" font-size="${at(size)}" text-anchor="${anchor}" font-weight="${bold ? 'bold' : 'normal'}">${text}</text>`;
}

export function line(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  width = 0.5,
  dash: string | null = null,
): Markup {
  return html`<line x1="${at(x1)}" y1="${at(y1)}" x2="${at(x2)}" y2="${at(y2)}" stroke="currentColor" stroke-width="${at(width)}"${
    dash === null ? null : html` stroke-dasharray="${dash}"`
  }/>`;
}

export function rect(
  x: number,
  y: number,
  width: number,
  height: number,
  fill: string,
  strokeWidth = 0.6,
): Markup {
  return html`<rect x="${at(x)}" y="${at(y)}" width="${at(Math.max(0, width))}" height="${at(Math.max(0, height))}" fill="${fill}" stroke="currentColor" stroke-width="${at(strokeWidth)}"/>`;
}

/** A whole drawing. The text alternative stands in the element, for whoever does not see it. */
export function picture(widthPt: number, heightPt: number, alt: string, parts: readonly Markup[]): Picture {
  const svg = html`<svg width="${at(widthPt)}pt" height="${at(heightPt)}pt" viewBox="0 0 ${at(widthPt)} ${at(heightPt)}" role="img" aria-label="${alt}" font-family="Plan, system-ui, sans-serif" fill="currentColor" color="inherit">${parts}</svg>`;
  return { svg: svg.text, alt, widthPt, heightPt };
}
