/** In which order people take one bar, so that plates move least. */

/** One use of the bar: the plates of one side, heaviest inside. */
export interface BarUse {
  readonly eachSideKg: readonly number[];
}

/** What has to be done to a bar before a set, on each side, outermost first off and innermost first on. */
export interface PlateChange {
  readonly offKg: readonly number[];
  readonly onKg: readonly number[];
}

/** Plates that are moved on each side between two loadings: those outside the common inner ones. */
export function plateChange(before: readonly number[], after: readonly number[]): PlateChange {
  let same = 0;
  while (same < before.length && same < after.length && before[same] === after[same]) same += 1;
  return { offKg: before.slice(same).reverse(), onKg: after.slice(same) };
}

function moves(before: readonly number[], after: readonly number[]): number {
  const { offKg, onKg } = plateChange(before, after);
  return offKg.length + onKg.length;
}

/** Beyond so many states the order is found step by step instead, each time the nearest loading. */
const MAX_STATES = 60_000;

/**
 * The order of all uses, from what is on the bar before them (nothing, where it is not said). Each person's own order (`queues`) is kept; between people it is free.
 * The fewest plates moved where that can be worked out, else a good order; the same input gives the same order.
 */
export function orderUses<Use extends BarUse>(
  queues: readonly (readonly Use[])[],
  before: readonly number[] = [],
): readonly Use[] {
  const waiting = queues.filter((queue) => queue.length > 0);
  const states = waiting.reduce((product, queue) => product * (queue.length + 1), waiting.length);
  return states <= MAX_STATES ? bestOrder(waiting, before) : stepByStep(waiting, before);
}

function stepByStep<Use extends BarUse>(
  queues: readonly (readonly Use[])[],
  before: readonly number[],
): readonly Use[] {
  const taken = queues.map(() => 0);
  const order: Use[] = [];
  let bar = before;
  for (;;) {
    let best: { queue: number; use: Use; cost: number } | null = null;
    queues.forEach((queue, index) => {
      const use = queue[taken[index] as number];
      if (!use) return;
      const cost = moves(bar, use.eachSideKg);
      if (!best || cost < best.cost) best = { queue: index, use, cost };
    });
    const next = best as { queue: number; use: Use; cost: number } | null;
    if (!next) return order;
    taken[next.queue] = (taken[next.queue] as number) + 1;
    order.push(next.use);
    bar = next.use.eachSideKg;
  }
}

interface Rest<Use> {
  readonly cost: number;
  readonly queue: number;
  readonly use: Use | null;
}

/** Dynamic programming over how far each queue has come and whose plates are on the bar. */
function bestOrder<Use extends BarUse>(
  queues: readonly (readonly Use[])[],
  before: readonly number[],
): readonly Use[] {
  const known = new Map<string, Rest<Use>>();
  const bestFrom = (taken: readonly number[], last: number): Rest<Use> => {
    const key = `${taken.join(',')}|${last}`;
    const found = known.get(key);
    if (found) return found;
    const bar = last < 0 ? before : (queues[last]?.[(taken[last] as number) - 1]?.eachSideKg ?? []);
    let best: Rest<Use> | null = null;
    queues.forEach((queue, index) => {
      const use = queue[taken[index] as number];
      if (!use) return;
      const after = taken.map((count, at) => (at === index ? count + 1 : count));
      const cost = moves(bar, use.eachSideKg) + bestFrom(after, index).cost;
      if (!best || cost < best.cost) best = { cost, queue: index, use };
    });
    const rest = best ?? { cost: 0, queue: -1, use: null };
    known.set(key, rest);
    return rest;
  };
  const order: Use[] = [];
  let taken: readonly number[] = queues.map(() => 0);
  let last = -1;
  for (;;) {
    const { queue, use } = bestFrom(taken, last);
    if (use === null) return order;
    order.push(use);
    taken = taken.map((count, at) => (at === queue ? count + 1 : count));
    last = queue;
  }
}
