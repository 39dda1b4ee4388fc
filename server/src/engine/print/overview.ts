/** The months at a glance, for the coach: charts, then a table for each block. */

import { say } from '../../../../grammar/say.js';
import type { IsoDate } from '../dates.js';
import { estimatesOf } from '../history/estimates.js';
import type { ClientPlan, Session, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { estimatePicture } from '../plots/estimate.js';
import { type ReservePoint, reservePicture } from '../plots/reserve.js';
import { type WeekPoint, weeksPicture } from '../plots/weeks.js';
import { totalReps } from '../science/volume.js';
import { STAGES } from '../stages.js';
import { footerOf } from './footer.js';
import {
  type Block,
  PAGE_POINTS,
  type Paper,
  type PaperSection,
  type PaperSize,
  type Part,
  partsOf,
  placed,
  type Row,
} from './paper/document.js';
import { capitalised, countWords, dateRangeWords, dateWords, listWords } from './words.js';
import { workOf } from './work.js';

export interface OverviewOptions {
  readonly printedOn: IsoDate;
  readonly size: PaperSize;
  readonly large: boolean;
}

/** Movements whose estimated max is drawn: the first so many by how often they are in the plan. */
const MOST_ESTIMATES = 4;
const MOVEMENT_SHARE = 0.17;
/** Three charts stand side by side on Letter as on A4. */
const CHART_PT = 236;
/** More weeks and blocks than this leave no room for the charts on the same page. */
const MOST_ROWS = 12;
/** A chart of weeks is as high as so many rows of the table. */
const WEEKS_ROWS = 8;

/** The overview of the sessions of one client. */
export function buildOverview(
  plan: ClientPlan,
  sessions: readonly Session[],
  world: World,
  options: OverviewOptions,
): Paper {
  const programs = listWords([...new Set(sessions.map(({ program }) => program.name))]);
  const blocks = groupBy(sessions, ({ program, block }) => `${program.key}\n${block.index}`);
  const width = PAGE_POINTS[options.size][1] - 2 * 26;
  return {
    title: say`Overview of ${plan.client.name}`,
    page: options.size,
    landscape: true,
    footer: footerOf(plan.client.name, programs, say`printed ${dateWords(options.printedOn)}`),
    fontPt: options.large ? 16 : 9,
    onePage: !options.large,
    leastFontPt: 7,
    sections: [...glance(plan, sessions, blocks, world, width), ...blocks.map(blockSection)],
  };
}

function groupBy(
  sessions: readonly Session[],
  keyOf: (session: Session) => string,
): readonly (readonly Session[])[] {
  const groups = new Map<string, Session[]>();
  for (const session of sessions) {
    const known = groups.get(keyOf(session));
    if (known) known.push(session);
    else groups.set(keyOf(session), [session]);
  }
  return [...groups.values()];
}

function weeksOf(sessions: readonly Session[]): readonly (readonly Session[])[] {
  return groupBy(sessions, ({ program, block, week }) => `${program.key}\n${block.index}\n${week}`);
}

/** Intensity, volume and stage of one week. Intensity is the mean share, each repetition counting once. */
export function weekPoint(sessions: readonly Session[]): WeekPoint {
  const first = sessions[0] as Session;
  const cells = sessions.flatMap((session) => session.cells);
  let weighed = 0;
  let reps = 0;
  let sets = 0;
  let highest = 0;
  for (const cell of cells) {
    const rounds = cell.row.circuit?.roundsByWeek[cell.week - 1] ?? 1;
    for (const group of cell.groups) {
      sets += group.sets ?? rounds;
      highest = Math.max(highest, STAGES.indexOf(group.stage));
      const count = totalReps(cell, { ...group, sets: group.sets ?? rounds });
      if (group.share === null || count === null) continue;
      weighed += group.share * count;
      reps += count;
    }
  }
  return {
    week: first.week,
    block: capitalised(first.block.name),
    stage: first.block.stage ?? (STAGES[highest] as string),
    deload: first.deload,
    test: cells.some(({ test }) => test !== null),
    intensity: reps === 0 ? null : weighed / reps,
    sets,
  };
}

function reservePoints(sessions: readonly Session[]): readonly ReservePoint[] {
  const counts = new Map<string, { asked: number; predicted: number; count: number }>();
  for (const { cells } of sessions) {
    for (const { groups } of cells) {
      for (const { writtenReserve, reserve, reserveBeyond } of groups) {
        if (writtenReserve === null || reserve === null || reserveBeyond) continue;
        const predicted = Math.round(reserve * 2) / 2;
        const known = counts.get(`${writtenReserve} ${predicted}`);
        if (known) known.count += 1;
        else counts.set(`${writtenReserve} ${predicted}`, { asked: writtenReserve, predicted, count: 1 });
      }
    }
  }
  return [...counts.values()].sort((a, b) => a.asked - b.asked || a.predicted - b.predicted);
}

function glance(
  plan: ClientPlan,
  sessions: readonly Session[],
  blocks: readonly (readonly Session[])[],
  world: World,
  width: number,
): readonly PaperSection[] {
  const first = sessions[0];
  const last = sessions[sessions.length - 1];
  // Programs that run alongside each other have weeks of their own.
  const weeks = groupBy(sessions, ({ program }) => program.key).map((own) => weeksOf(own).map(weekPoint));
  const reserve = reservePoints(sessions);
  const charts = [
    ...(reserve.length === 0 ? [] : [reservePicture(reserve, CHART_PT)]),
    ...estimates(plan, sessions, world),
  ];
  const blocksTable: Block[] = [
    {
      kind: 'table',
      table: {
        name: say('Blocks'),
        columns: [
          { title: say('Block'), share: 0.24 },
          { title: say('Dates'), share: 0.26 },
          { title: say('Weeks'), share: 0.08 },
          { title: say('Stage'), share: 0.1 },
          { title: say('Lighter weeks'), share: 0.12 },
          { title: say('Tests'), share: 0.2 },
        ],
        rows: blocks.map(blockRow),
      },
    },
  ];
  const months = weeks.map((own): Block => ({ kind: 'pictures', pictures: [weeksPicture(own, width)] }));
  const drawn: readonly Block[] = charts.length === 0 ? [] : [{ kind: 'pictures', pictures: charts }];
  const together = weeks.length * WEEKS_ROWS + blocks.length <= MOST_ROWS;
  const dates = first && last ? dateRangeWords(first.date, last.date) : say('no sessions');
  const closing = [
    say(
      'Intensity is the mean share of the estimated best, each repetition counting once, of the work that has a load. Bands of estimates are about two standard deviations of the error.',
    ),
  ];
  const missed = listWords(plan.missed.map(({ date }) => dateWords(date)));
  const glancePage: PaperSection = {
    heading: say`${plan.client.name}: the months at a glance`,
    aside: `${dates} · ${countWords(sessions.length, 'session')}`,
    notes: missed === '' ? [] : [say`Missed by absence: ${missed}.`],
    texts: [],
    blocks: together ? [...months, ...blocksTable, ...drawn] : months,
    closing,
  };
  if (together) return [glancePage];
  const effort: PaperSection = {
    heading: say`${plan.client.name}: blocks, reserve and estimates`,
    aside: dates,
    notes: [],
    texts: [],
    blocks: [...blocksTable, ...drawn],
    closing: [],
  };
  return [glancePage, effort];
}

function estimates(plan: ClientPlan, sessions: readonly Session[], world: World) {
  const counts = new Map<string, number>();
  for (const { cells } of sessions)
    for (const { movement } of cells)
      if (movement) counts.set(movement.key, (counts.get(movement.key) ?? 0) + 1);
  const client = world.clients.get(plan.client.key) ?? plan.client;
  return [...estimatesOf(client, [], world)]
    .filter(([key, points]) => points.length > 0 && counts.has(key))
    .sort(([a], [b]) => (counts.get(b) ?? 0) - (counts.get(a) ?? 0) || (a < b ? -1 : 1))
    .slice(0, MOST_ESTIMATES)
    .map(([key, points]) =>
      estimatePicture(capitalised(world.movements.get(key)?.name ?? key), points, client.units, CHART_PT),
    );
}

function blockRow(sessions: readonly Session[]): Row {
  const first = sessions[0] as Session;
  const last = sessions[sessions.length - 1] as Session;
  const { block } = first;
  const tests = sessions.flatMap(({ date, cells }) =>
    cells.flatMap((cell) =>
      cell.test === null ? [] : [`${cell.movement?.name ?? cell.row.movementName.text}, ${dateWords(date)}`],
    ),
  );
  return {
    kind: 'row',
    cells: [
      [...partsOf('big', capitalised(block.name)), ...partsOf('small', first.program.name)],
      partsOf('plain', dateRangeWords(first.date, last.date)),
      partsOf('plain', String(block.weeks)),
      partsOf('plain', weekPoint(sessions).stage),
      partsOf('plain', listWords([...block.deloadWeeks].sort((a, b) => a - b).map(String)) || say('none')),
      partsOf('plain', ...(tests.length === 0 ? [say('none')] : tests)),
    ],
    source: block.place,
  };
}

/** A column for each week that has sessions, a row for each row of each day. */
function blockSection(sessions: readonly Session[]): PaperSection {
  const first = sessions[0] as Session;
  const last = sessions[sessions.length - 1] as Session;
  const { block, program } = first;
  const weeks = [...new Set(sessions.map(({ week }) => week))].sort((a, b) => a - b);
  const share = (1 - MOVEMENT_SHARE) / weeks.length;
  const rows = block.days.flatMap((day): Row[] => {
    const ofDay = sessions.filter((session) => session.day.key === day.key);
    if (ofDay.length === 0) return [];
    const movements = day.rows.flatMap((row): Row[] => {
      const cells = weeks.map((week) =>
        ofDay.find((session) => session.week === week)?.cells.find((cell) => cell.row.key === row.key),
      );
      if (cells.every((cell) => cell === undefined)) return [];
      return [
        {
          kind: 'row',
          source: row.place,
          cells: [
            [
              ...partsOf('plain', capitalised(row.movementName.text)),
              ...partsOf('small', row.label, row.circuit === null ? null : say`circuit: ${row.circuit.name}`),
            ],
            ...cells.map((cell): readonly Part[] =>
              cell === undefined
                ? partsOf('small', say('left out'))
                : placed(cell.place, [
                    ...(cell.swap ? partsOf('small', capitalised(cell.movement?.name ?? '')) : []),
                    ...(cell.test === null
                      ? cell.groups.flatMap((group) => {
                          const work = workOf(cell, group);
                          const load = work.load ?? (work.chooseLoad ? say('choose') : null);
                          return [
                            ...partsOf('plain', work.dose),
                            ...partsOf('small', load, reserveNote(group.writtenReserve)),
                          ];
                        })
                      : partsOf('plain', say`test: heaviest ${cell.test.reps}`)),
                  ]),
            ),
          ],
        },
      ];
    });
    return [{ kind: 'band', text: capitalised(day.name), aside: null, source: day.place }, ...movements];
  });
  const title = (week: number): string =>
    say`Week ${week}${block.deloadWeeks.has(week) ? say(', lighter') : ''}`;
  return {
    heading: `${capitalised(block.name)} · ${first.client.name}`,
    aside: `${program.name} · ${dateRangeWords(first.date, last.date)}`,
    notes: [],
    texts: block.texts,
    blocks: [
      {
        kind: 'table',
        table: {
          name: say`${capitalised(block.name)}, week by week`,
          columns: [
            { title: say('Movement'), share: MOVEMENT_SHARE },
            ...weeks.map((week) => ({ title: title(week), share })),
          ],
          rows,
        },
      },
    ],
    closing: [],
  };
}

function reserveNote(reserve: number | null): string | null {
  return reserve === null ? null : say`leave ${formatNumber(reserve, 1)}`;
}
