/** A plan as data for other programs. */

import type { IsoDate } from '../dates.js';
import type { ClientPlan, ResolvedCell, ResolvedGroup } from '../model.js';
import { roundTo } from '../numbers.js';
import { timeWords } from '../print/words.js';
import { sessionIds, sessionsBetween } from './identity.js';
import { PLAN_VERSION, type PlanJson, type PlanJsonCell, type PlanJsonGroup } from './planSchema.js';

/** A number without binary noise; null for what is no number of this world. */
export function plainNumber(value: number | null): number | null {
  return value === null || !Number.isFinite(value) ? null : roundTo(value, 6);
}

/** The plan in the shape of `planSchema`, sessions from `from` until `until` (both included, null is open). */
export function planJson(
  plan: ClientPlan,
  dates: { readonly from: IsoDate | null; readonly until: IsoDate | null; readonly printedOn: IsoDate },
): PlanJson {
  const ids = sessionIds(plan);
  const { from, until, printedOn } = dates;
  return {
    format: 'stave-plan',
    version: PLAN_VERSION,
    client: plan.client.name,
    units: plan.client.units,
    care: [...plan.client.care],
    printedOn,
    sessions: sessionsBetween(plan, from, until).map((session) => ({
      id: ids.get(session) as string,
      date: session.date,
      program: session.program.name,
      block: session.block.name,
      stage: session.block.stage,
      week: session.week,
      weeks: session.block.weeks,
      day: session.day.name,
      deload: session.deload,
      supervised: session.supervised,
      startTime: session.startMinute === null ? null : timeWords(session.startMinute).padStart(5, '0'),
      kit: session.kit?.name ?? null,
      cells: session.cells.map(cellJson),
    })),
    missed: plan.missed
      .filter(({ date }) => (from === null || date >= from) && (until === null || date <= until))
      .map(({ date, program, block, day }) => ({
        date,
        program: program.name,
        block: block.name,
        day: day.name,
      })),
  };
}

function cellJson(cell: ResolvedCell): PlanJsonCell {
  const { row } = cell;
  return {
    movement: cell.movement?.name ?? row.movementName.text,
    label: row.label,
    insteadOf: cell.swap ? row.movementName.text : null,
    circuit: row.circuit?.name ?? null,
    rounds: row.circuit?.roundsByWeek[cell.week - 1] ?? null,
    perSide: cell.perSide,
    restSeconds: plainNumber(cell.restSeconds),
    tempo: cell.tempo === null ? null : [...cell.tempo],
    heightCm: plainNumber(cell.heightCm),
    warmUp: cell.warm,
    testReps: cell.test?.reps ?? null,
    texts: [...cell.texts],
    groups: cell.groups.map(groupJson),
  };
}

function groupJson(group: ResolvedGroup): PlanJsonGroup {
  const { openReps, bar, band, stage, provisional, provisionalReason, issue } = group;
  return {
    sets: plainNumber(group.sets),
    reps: plainNumber(group.reps),
    repsUpper: plainNumber(group.repsUpper),
    openReps,
    seconds: plainNumber(group.seconds),
    metres: plainNumber(group.metres),
    offSeconds: plainNumber(group.offSeconds),
    writtenReserve: plainNumber(group.writtenReserve),
    writtenPercent: plainNumber(group.writtenPercent),
    targetKg: plainNumber(group.targetKg),
    loadKg: plainNumber(group.loadKg),
    eachSideKg: group.eachSideKg === null ? null : group.eachSideKg.map((kg) => roundTo(kg, 6)),
    bar,
    band,
    estimatedOneRepMaxKg: plainNumber(group.estimatedOneRepMaxKg),
    reserve: group.reserveBeyond ? null : plainNumber(group.reserve),
    share: plainNumber(group.share),
    stage,
    provisional,
    provisionalReason,
    issue,
  };
}
