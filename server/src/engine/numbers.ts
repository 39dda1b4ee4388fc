/** Rounding and number text without locale: the same input gives the same text on every machine. */

/**
 * Rounds half away from zero to `decimals` places. Binary noise in the last digits (1.005 being stored as
 * 1.00499...) is taken off first, so that the result is the one a person gets on paper.
 */
export function roundTo(value: number, decimals: number): number {
  if (!Number.isFinite(value)) return value;
  const factor = 10 ** decimals;
  const plain = Math.abs(value) * factor;
  // Only near a half does the noise decide, and taking it off by way of text is slow.
  const nearHalf = plain > 1e9 || Math.abs((plain % 1) - 0.5) < 1e-4;
  const scaled = nearHalf ? Number(plain.toPrecision(14)) : plain;
  const rounded = Math.round(scaled) / factor;
  return value < 0 && rounded !== 0 ? -rounded : rounded;
}

/**
 * A number as plain text with at most `maxDecimals` places, trailing zeros taken off: `45`, `47.5`, `78.94`.
 * A value without end prints as `∞`, one that is not a number as `?`.
 */
export function formatNumber(value: number, maxDecimals = 2): string {
  if (Number.isNaN(value)) return '?';
  if (!Number.isFinite(value)) return value > 0 ? '∞' : '-∞';
  const rounded = roundTo(value, maxDecimals);
  if (Number.isSafeInteger(rounded)) return String(rounded);
  const text = rounded.toFixed(maxDecimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** A fraction as percent text, at most `maxDecimals` places: 0.7895 gives `78.9 %`. */
export function formatPercent(fraction: number, maxDecimals = 1): string {
  return `${formatNumber(fraction * 100, maxDecimals)} %`;
}

/**
 * Sets of a deload week: 40 % fewer than the working week's `sets`, to the nearest whole set, at least one
 * (4 gives 2, 3 gives 2, 5 gives 3, 2 gives 1). The 40 % is common practice, no source; that deloads cut
 * volume and keep frequency: Rogerson et al., Sports Med Open 2024;10:26.
 */
export function deloadSets(sets: number): number {
  // 3/5 instead of 0.6 keeps whole sets exact; a whole number of sets never lands on a half.
  return Math.max(1, Math.round((sets * 3) / 5));
}

/** Index of the first element of ascending `values` that is greater than `limit`; `values.length` when none is. */
export function firstAbove(values: ArrayLike<number>, limit: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((values[middle] as number) > limit) high = middle;
    else low = middle + 1;
  }
  return low;
}
