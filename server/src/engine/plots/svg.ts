/** Parts of the drawings. They stand in HTML as they are; in a PDF `currentColor` is black. */

import { html, Markup } from '../print/markup.js';

/** A drawing with its size in points and a text that says the same. */
export interface Picture {
  readonly svg: string;
  readonly alt: string;
  readonly widthPt: number;
  readonly heightPt: number;
  /** The same as plain lines and boxes, for where there are many of them; not there where it has letters or curves. */
  readonly shapes?: readonly Shape[];
}

/** A part of a drawing that is no more than a line or a box, in points from its upper left corner. */
export type Shape =
  | {
      readonly kind: 'line';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly widthPt: number;
    }
  | {
      readonly kind: 'rect';
      readonly x: number;
      readonly y: number;
      readonly w: number;
      readonly h: number;
      readonly fill: string;
      readonly widthPt: number;
    };

/** The shape `scale` times as large. */
export function scaledShape<Any extends Shape>(shape: Any, scale: number): Any {
  const larger = Object.entries(shape).map(([key, value]) => [
    key,
    typeof value === 'number' ? value * scale : value,
  ]);
  return Object.fromEntries(larger) as Any;
}

/** Markup of which the shape is known. */
class ShapeMarkup extends Markup {
  constructor(
    { text }: Markup,
    readonly shape: Shape,
  ) {
    super(text);
  }
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
  const drawn = html`<line x1="${at(x1)}" y1="${at(y1)}" x2="${at(x2)}" y2="${at(y2)}" stroke="currentColor" stroke-width="${at(width)}"${
    dash === null ? null : html` stroke-dasharray="${dash}"`
  }/>`;
  return dash === null ? new ShapeMarkup(drawn, { kind: 'line', x1, y1, x2, y2, widthPt: width }) : drawn;
}

export function rect(
  x: number,
  y: number,
  width: number,
  height: number,
  fill: string,
  strokeWidth = 0.6,
): Markup {
  const [w, h] = [Math.max(0, width), Math.max(0, height)];
  return new ShapeMarkup(
    html`<rect x="${at(x)}" y="${at(y)}" width="${at(w)}" height="${at(h)}" fill="${fill}" stroke="currentColor" stroke-width="${at(strokeWidth)}"/>`,
    { kind: 'rect', x, y, w, h, fill, widthPt: strokeWidth },
  );
}

/** A whole drawing. The text alternative stands in the element, for whoever does not see it. */
export function picture(widthPt: number, heightPt: number, alt: string, parts: readonly Markup[]): Picture {
  const svg = html`<svg width="${at(widthPt)}pt" height="${at(heightPt)}pt" viewBox="0 0 ${at(widthPt)} ${at(heightPt)}" role="img" aria-label="${alt}" font-family="Plan, system-ui, sans-serif" fill="currentColor" color="inherit">${parts}</svg>`;
  const shapes = parts.flatMap((part) => (part instanceof ShapeMarkup ? [part.shape] : []));
  const whole = { svg: svg.text, alt, widthPt, heightPt };
  return shapes.length === parts.length ? { ...whole, shapes } : whole;
}
