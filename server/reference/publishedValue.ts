/** A published value beside the engine's own. */
export interface PublishedValue {
  readonly topic: string;
  /** What was asked, with units. */
  readonly what: string;
  /** A number, or a range with both ends. */
  readonly published: number | readonly [number, number];
  /** Stave's own, worked out by the engine. Not a number where it has none. */
  readonly own: number;
  /** How far the two may lie apart, in the value's own unit. */
  readonly tolerance: number;
  /** Why the tolerance is wider than the last printed digit: the error that the source itself states. */
  readonly toleranceIs?: string;
  readonly source: string;
}

/** Own value less the published one; for a range what lies outside of it, 0 inside. */
export function differenceOf({ published, own }: PublishedValue): number {
  if (typeof published === 'number') return own - published;
  const [least, most] = published;
  return own < least ? own - least : own > most ? own - most : own - own;
}
