import type { DoneGroup } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { addDays } from '../dates.js';
import type { PlannedFor } from '../history/done.js';
import type { Client, LogEntry, Movement, ResolvedCell, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { curveOn, massOn, strengthOn } from '../resolve/strength.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';

/** A load of more than this share of the max was hardly lifted. */
const MOST_SHARE = 1.25;
/** Loads of more or less than these shares of what was usual before are asked about. */
const MOST_OF_USUAL = 1.8;
const LEAST_OF_USUAL = 0.3;
/** So many earlier loads make something usual. */
const USUAL_FROM = 3;
const USUAL_OF_LAST = 5;
/** Repetitions of more than this many times what the load allows, and a few, were hardly done. */
const MOST_REPS_TIMES = 2;
const REPS_ROOM = 5;

type WithLoad = DoneGroup & { readonly load: Extract<DoneGroup['load'], { kind: 'load' | 'pack' }> };

type Movements = Pick<World, 'movements'>;

function findingsOf(
  client: Client,
  entries: readonly LogEntry[],
  world: Movements,
  planned: PlannedFor,
): readonly RawFinding[] {
  const usual = new Map<string, number[]>();
  const found: RawFinding[] = [];
  for (const entry of entries) {
    for (const line of entry.node.lines) {
      const movement = line.kind === 'done' ? world.movements.get(line.movement.key) : undefined;
      if (line.kind !== 'done' || !movement) continue;
      for (const [index, group] of line.groups.entries()) {
        if (group.load?.kind !== 'load' && group.load?.kind !== 'pack') continue;
        const before = usual.get(movement.key) ?? [];
        const plan = () => plannedWork(planned(entry, line), index);
        const slip = slipOf(client, entry, movement, group as WithLoad, before, world, plan);
        if (slip) found.push(slip);
        // A slip is no part of what is usual.
        else usual.set(movement.key, [...before.slice(1 - USUAL_OF_LAST), group.load.mass.kg]);
      }
    }
  }
  return found;
}

function slipOf(
  client: Client,
  entry: LogEntry,
  movement: Movement,
  group: WithLoad,
  before: readonly number[],
  world: Movements,
  planned: () => PlannedWork,
): RawFinding | null {
  const { mass } = group.load;
  const kg = (value: number) => formatMass(value, client.units);
  const answer = strengthOn(client, movement, addDays(entry.date, 1), null, world);
  const maxKg = 'missing' in answer ? null : answer.estimatedOneRepMaxKg;
  const bodyKg = movement.liftsShare === null ? 0 : movement.liftsShare * (massOn(client, entry.date) ?? 0);
  const share = maxKg === null ? null : (mass.kg + bodyKg) / maxKg;
  const usualKg = before.length < USUAL_FROM ? null : middle(before);
  // Her max and her history are better witnesses than a plan, which may have been changed on the day.
  const plan = maxKg === null && usualKg === null ? planned() : NO_PLAN;
  const tell = (headline: string, detail: string, advice: string, meant: string | null): RawFinding => ({
    place: { file: entry.place.file, span: group.span },
    headline,
    detail: `${client.name}, ${entry.date}: ${detail}`,
    advice,
    client: client.key,
    cell: null,
    log: entry.node,
    related:
      'missing' in answer
        ? []
        : [{ place: answer.use.entry.place, message: say`The max of ${movement.name}.` }],
    fixes:
      meant === null
        ? []
        : [
            {
              title: say`Change to "${meant}"`,
              safe: false,
              edits: [{ file: entry.place.file, span: mass.span, newText: meant }],
            },
          ],
  });
  const written = `${formatNumber(mass.value, 3)}${mass.unit}`;
  const expectedKg = usualKg ?? plan.loadKg;
  const against = maxKg ?? expectedKg;
  const tooMuch =
    (share !== null && share > MOST_SHARE) || (expectedKg !== null && mass.kg > expectedKg * MOST_OF_USUAL);
  const tooLittle = expectedKg !== null && mass.kg < expectedKg * LEAST_OF_USUAL;
  if (tooMuch || tooLittle) {
    const rests = [
      ...(maxKg === null ? [] : [say`her max is about ${kg(maxKg)}`]),
      ...(usualKg === null ? [] : [say`${kg(usualKg)} was usual before`]),
      ...(plan.loadKg === null ? [] : [say`${kg(plan.loadKg)} was planned`]),
    ].join(', ');
    const meant = tooMuch && against !== null ? shifted(mass.value, mass.kg, against) : null;
    const advice =
      meant === null ? say('Check the number.') : say`Did you mean ${formatNumber(meant, 3)}${mass.unit}?`;
    return tell(
      say`${written} of ${movement.name} looks like a slip.`,
      `${rests}.`,
      advice,
      meant === null ? null : `${formatNumber(meant, 3)}${mass.unit}`,
    );
  }
  const mostReps = Math.max(...group.sets.map(({ reps }) => reps ?? 0), 0);
  if (plan.reps !== null && mostReps > plan.reps * MOST_REPS_TIMES + REPS_ROOM)
    return tell(
      say`${formatNumber(mostReps)} reps of ${movement.name} with ${written} look like a slip.`,
      say`${formatNumber(plan.reps)} were planned.`,
      say('Check the number.'),
      null,
    );
  const possible = share === null || share <= 0 ? null : curveOn(client, entry.date).reps(share);
  if (possible === null || !Number.isFinite(possible)) return null;
  if (mostReps <= Math.max(1, possible) * MOST_REPS_TIMES + REPS_ROOM) return null;
  return tell(
    say`${formatNumber(mostReps)} reps of ${movement.name} with ${written} look like a slip.`,
    say`her max of about ${kg(maxKg ?? 0)} gives about ${formatNumber(Math.max(1, possible), 0)}.`,
    say('Check the number; if it is right, her max line is far too low.'),
    null,
  );
}

/** What the plan asked for; null for what it does not say. */
interface PlannedWork {
  readonly loadKg: number | null;
  readonly reps: number | null;
}

const NO_PLAN: PlannedWork = { loadKg: null, reps: null };

/** The planned work of the group at the same place, else of the only group that there is. */
function plannedWork(cell: ResolvedCell | null, index: number): PlannedWork {
  const group = cell?.groups[index] ?? (cell?.groups.length === 1 ? cell.groups[0] : undefined);
  if (!group || group.basis === 'bodyweight' || group.band !== null) return NO_PLAN;
  return {
    loadKg: group.loadKg !== null && group.loadKg > 0 ? group.loadKg : null,
    reps: group.openReps ? null : (group.repsUpper ?? group.reps),
  };
}

/** A tenth of a load that was typed with a digit too many, where that fits. */
function shifted(value: number, kg: number, againstKg: number): number | null {
  const share = kg / 10 / againstKg;
  return share >= 0.3 && share <= 1.1 ? value / 10 : null;
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] as number;
}

const files = (load: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  max: box squat, 47.5kg x5 r2, 2026-11-23`,
    `log Heron, 2026-12-08
  box squat: ${load} 6 6 6`,
  );

export const logFarOff: Rule = {
  code: 'log-far-off',
  title: 'A logged number that looks like a slip',
  severity: 'warning',
  what: 'A logged load is more than a quarter above the max, or far from the last loads of that movement, or a set has far more reps than the load allows. Where there is neither a max nor an earlier load, what was planned for the day is held against it: more than 1.8 times the load or less than 0.3 of it, or more than twice the reps and five.',
  why: 'The log is what later loads are read from. A digit too many today is a weight too heavy next month.',
  source: 'Common practice, no source.',
  example: files('450kg'),
  better: files('45kg'),
  fix: 'Correct the number. The quick fix takes the digit away where that fits.',
  inLogs: true,
  checkLogs: (logs, client, world, _context, planned) =>
    client ? findingsOf(client, logs, world, planned) : [],
};
