/** Mass units. Everything inside the engine is in kilograms; pounds exist only at the edges. */

import { KG_PER_LB } from '../../../grammar/index.js';
import { formatNumber } from './numbers.js';

export { KG_PER_LB };

/** A unit in which a coach writes, or a client reads, loads. */
export type MassUnit = 'kg' | 'lb';

/** Kilograms of `value` given in `unit`. */
export function toKg(value: number, unit: MassUnit): number {
  return unit === 'lb' ? value * KG_PER_LB : value;
}

/** The number to print in `unit` for a mass of `kg` kilograms (not rounded). */
export function fromKg(kg: number, unit: MassUnit): number {
  return unit === 'lb' ? kg / KG_PER_LB : kg;
}

/** A mass as printed for a client: `45 kg`, `47.5 kg`, `95 lb`; at most two decimals, trailing zeros taken off. */
export function formatMass(kg: number, unit: MassUnit): string {
  return `${formatNumber(fromKg(kg, unit), 2)} ${unit}`;
}
