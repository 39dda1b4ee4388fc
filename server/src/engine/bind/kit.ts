import type { KitNode, StockNode } from '../../../../grammar/index.js';
import type { KitModel, SingleWeight } from '../kit.js';
import type { Kit } from '../model.js';

/** A range holds at most this many loads; a longer one is a slip of the pen, not a rack. */
const MOST_STEPS = 500;

/** The masses of a range, ascending, in kilograms. Multiples of the step, so that no rounding noise adds up. */
function rangeKg(from: number, to: number, by: number): number[] {
  if (!(by > 0) || to < from) return [from];
  const steps = Math.min(MOST_STEPS, Math.floor((to - from) / by + 1e-9));
  return Array.from({ length: steps + 1 }, (_, step) => from + step * by);
}

function singles(stock: readonly StockNode[]): SingleWeight[] {
  return stock.flatMap((entry): SingleWeight[] =>
    entry.kind === 'range'
      ? rangeKg(entry.from.kg, entry.to.kg, entry.by.kg).map((kg) => ({ kg, count: null }))
      : [{ kg: entry.mass.kg, count: entry.count?.value ?? null }],
  );
}

/** A plate without a count is one pair. */
function plates(stock: readonly StockNode[]): { kg: number; count: number }[] {
  return stock.flatMap((entry) =>
    entry.kind === 'range'
      ? rangeKg(entry.from.kg, entry.to.kg, entry.by.kg).map((kg) => ({ kg, count: 2 }))
      : [{ kg: entry.mass.kg, count: entry.count?.value ?? 2 }],
  );
}

/** What a `kit` section says is there to lift. Lines of one kind add up. */
export function bindKit(node: KitNode, file: string): Kit {
  const model: KitModel = {
    name: node.name.text,
    bars: [],
    plates: [],
    dumbbells: [],
    kettlebells: [],
    pack: null,
    bands: [],
    machines: {},
  };
  const machines: Record<string, KitModel['machines'][string]> = {};
  for (const line of node.lines) {
    switch (line.kind) {
      case 'bar':
        model.bars.push({ name: line.name?.text ?? null, kg: line.mass.kg });
        break;
      case 'plates':
        model.plates.push(...plates(line.stock));
        break;
      case 'dumbbells':
        model.dumbbells.push(...singles(line.stock));
        break;
      case 'kettlebells':
        model.kettlebells.push(...singles(line.stock));
        break;
      case 'pack':
        model.pack = { fromKg: 0, toKg: line.to.kg, stepKg: line.by.kg };
        break;
      case 'bands':
        model.bands.push(...line.bands.map((band) => band.key));
        break;
      case 'machine':
        machines[line.name.key] = {
          name: line.name.text,
          loadsKg: singles(line.stock).map((single) => single.kg),
          fitsCm: line.fitsCm ? [...line.fitsCm] : null,
        };
        break;
    }
  }
  return {
    key: node.name.key,
    name: node.name.text,
    model: { ...model, machines },
    place: { file, span: node.name.span },
    node,
  };
}
