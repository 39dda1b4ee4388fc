import { say } from '../../../../grammar/say.js';
import type { Circuit, ResolvedCell, Session } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { fixesOf, swapAtKit } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { sameLoad } from './shared/loads.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

/** What two rows of a circuit would both occupy: the only bar, or one machine. Null where nothing is. */
function stationOf(cell: ResolvedCell): string | null {
  const implement = cell.movement?.implement;
  if (implement?.kind === 'machine') return say`the machine "${implement.key}"`;
  if (implement?.kind !== 'barbell' || !cell.kit) return null;
  return cell.kit.model.bars.length === 1 ? say('the only bar') : null;
}

/** Two rows of one circuit that need one station with different loads. */
function clashIn(cells: readonly ResolvedCell[]): readonly [ResolvedCell, ResolvedCell, string] | null {
  const seen = new Map<string, ResolvedCell>();
  for (const cell of cells) {
    const station = stationOf(cell);
    const load = cell.groups[0]?.loadKg ?? null;
    if (station === null || load === null) continue;
    const before = seen.get(station);
    const loadBefore = before?.groups[0]?.loadKg ?? null;
    if (before && loadBefore !== null && !sameLoad(loadBefore, load)) return [before, cell, station];
    if (!before) seen.set(station, cell);
  }
  return null;
}

function circuitsOf(session: Session): readonly (readonly ResolvedCell[])[] {
  const circuits = new Map<Circuit, ResolvedCell[]>();
  for (const cell of session.cells) {
    const { circuit } = cell.row;
    if (circuit === null) continue;
    const cells = circuits.get(circuit);
    if (cells) cells.push(cell);
    else circuits.set(circuit, [cell]);
  }
  return [...circuits.values()];
}

const files = (second: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'ready: load all 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
      'max: overhead press, 22.5kg x6 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', { Lower: ['circuit Deck, 3 rounds', 'back squat: x8 r4', second, 'end'] }),
  );

export const twoStations: Rule = {
  code: 'two-stations',
  title: 'One bar for two stations',
  severity: 'info',
  what: 'Two rows of a circuit need the only bar of the kit, or one machine, with different loads.',
  why: 'Changing plates inside a circuit takes longer than the rest, and plates are changed in haste.',
  source: 'Common practice, no source.',
  example: files('overhead press: x8 r4'),
  better: files('front plank: x20s'),
  fix: 'Use dumbbells, a band or bodyweight for one of the two. Where the second has an easier movement that needs neither bar nor machine, the quick fix writes the "swap:" line.',
  checkBlock(plan, world) {
    const findings: RawFinding[] = [];
    const told = new Set<unknown>();
    for (const session of plan.sessions) {
      for (const cells of circuitsOf(session)) {
        const circuit = cells[0]?.row.circuit;
        if (told.has(circuit)) continue;
        const clash = clashIn(cells);
        if (!clash) continue;
        told.add(circuit);
        const [first, second, station] = clash;
        const kg = (cell: ResolvedCell) => formatMass(cell.groups[0]?.loadKg ?? 0, plan.client.units);
        findings.push(
          onCell(second, {
            headline: say`The circuit needs ${station} twice, with different loads.`,
            detail: say`${plan.client.name}: ${movementText(first)} at ${kg(first)} and ${movementText(second)} at ${kg(second)} on ${session.date}.`,
            advice: say('Use something else for one of the two.'),
            fixes: fixesOf(
              swapAtKit(
                world,
                plan.sessions.flatMap((each) => each.cells.filter(({ row }) => row === second.row)),
                say('the station is taken'),
                ({ implement }) => implement.kind !== 'barbell',
              ),
            ),
            related: [{ place: first.place, message: say`${movementText(first)} in the same circuit.` }],
          }),
        );
      }
    }
    return findings;
  },
};
