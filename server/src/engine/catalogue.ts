import { parse } from '../../../grammar/index.js';
import { bindMovement } from './bind/movement.js';
import { CATALOGUE_TEXT } from './catalogue.generated.js';
import type { Movement } from './model.js';

let movements: ReadonlyMap<string, Movement> | null = null;

/** The built-in movements, by key. Read once, when first asked for. */
export function builtInMovements(): ReadonlyMap<string, Movement> {
  if (!movements) {
    const { value } = parse(CATALOGUE_TEXT);
    movements = new Map(
      value.sections.flatMap((section) =>
        section.kind === 'movement' ? [[section.name.key, bindMovement(section, null)] as const] : [],
      ),
    );
  }
  return movements;
}
