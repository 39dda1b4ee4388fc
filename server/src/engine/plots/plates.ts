/** The plates of one side of a bar, to scale. */

import { say } from '../../../../grammar/say.js';
import { formatNumber } from '../numbers.js';
import { fromKg, type MassUnit } from '../units.js';
import { at, line, MID_GREY, type Picture, picture, rect, scaledShape } from './svg.js';

/** A plate of 25 kg is drawn so high and so thick. */
const LARGEST_KG = 25;
const LARGEST_HEIGHT_PT = 26;
const LARGEST_WIDTH_PT = 6;
const GAP_PT = 0.6;
const SHAFT_PT = 7;
const COLLAR_PT = 2;

/** Height and thickness of a plate. Discs of one shape and one metal grow with the cube root of their mass. */
export function plateSize(kg: number): { readonly heightPt: number; readonly widthPt: number } {
  const scale = Math.cbrt(kg / LARGEST_KG);
  return { heightPt: LARGEST_HEIGHT_PT * scale, widthPt: LARGEST_WIDTH_PT * scale };
}

/** `One side of the bar, from the inside: 10, 5 kg.` */
function altOf(eachSideKg: readonly number[], unit: MassUnit): string {
  if (eachSideKg.length === 0) return say('The bar without plates.');
  return say`One side of the bar, from the inside: ${eachSideKg.map((kg) => formatNumber(fromKg(kg, unit))).join(', ')} ${unit}.`;
}

/**
 * One side of the bar with its plates, heaviest inside. `eachSideKg` in kilograms, heaviest first. All parts grow with
 * `scale`, so that drawings of one scale compare.
 */
export function platesPicture(eachSideKg: readonly number[], unit: MassUnit, scale = 1): Picture {
  const drawn = platesDrawing(eachSideKg, unit);
  if (scale === 1) return drawn;
  const size = `width="${at(drawn.widthPt)}pt" height="${at(drawn.heightPt)}pt"`;
  const scaled = { widthPt: drawn.widthPt * scale, heightPt: drawn.heightPt * scale };
  return {
    ...drawn,
    ...scaled,
    shapes: (drawn.shapes ?? []).map((shape) => scaledShape(shape, scale)),
    svg: drawn.svg.replace(size, `width="${at(scaled.widthPt)}pt" height="${at(scaled.heightPt)}pt"`),
  };
}

/** How large that picture is, for whoever only has to make room for it. */
export function platesSize(
  eachSideKg: readonly number[],
  scale = 1,
): { readonly widthPt: number; readonly heightPt: number } {
  const sizes = eachSideKg.map(plateSize);
  const heightPt = Math.max(10, ...sizes.map((size) => size.heightPt)) + 1.2;
  return { widthPt: (SHAFT_PT + COLLAR_PT + sleeveOf(sizes) + 1) * scale, heightPt: heightPt * scale };
}

function sleeveOf(sizes: readonly { readonly widthPt: number }[]): number {
  const platesPt = sizes.reduce((sum, { widthPt }) => sum + widthPt + GAP_PT, 0);
  return Math.max(30, platesPt + 8);
}

function platesDrawing(eachSideKg: readonly number[], unit: MassUnit): Picture {
  const sizes = eachSideKg.map(plateSize);
  const sleevePt = sleeveOf(sizes);
  const { widthPt, heightPt } = platesSize(eachSideKg);
  const middle = heightPt / 2;
  let x = SHAFT_PT + COLLAR_PT + GAP_PT;
  const plates = sizes.map((size) => {
    const drawn = rect(x, middle - size.heightPt / 2, size.widthPt, size.heightPt, MID_GREY);
    x += size.widthPt + GAP_PT;
    return drawn;
  });
  return picture(widthPt, heightPt, altOf(eachSideKg, unit), [
    line(0, middle, SHAFT_PT, middle, 1.6),
    rect(SHAFT_PT, middle - 4, COLLAR_PT, 8, 'currentColor'),
    rect(SHAFT_PT + COLLAR_PT, middle - 1.4, sleevePt, 2.8, 'none'),
    ...plates,
  ]);
}
