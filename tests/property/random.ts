/** A small generator of pseudo-random numbers (mulberry32), so that a failing script can be run again by its seed. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 to just below 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from 0 to `below - 1`. */
  below(below: number): number {
    return Math.floor(this.next() * below);
  }

  pick<Value>(values: readonly Value[]): Value {
    return values[this.below(values.length)] as Value;
  }
}
