/** The floor sheet: everyone who trains at one place on one day, by station and by person. */

import { said, say } from '../../../../grammar/say.js';
import type { IsoDate } from '../dates.js';
import { orderUses, plateChange } from '../floor/barOrder.js';
import type { ClientPlan, Kit, ResolvedCell, ResolvedGroup, Session } from '../model.js';
import { formatNumber } from '../numbers.js';
import { platesPicture } from '../plots/plates.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import { daySheet } from './build.js';
import { STOP_WORDS } from './card.js';
import { BETWEEN } from './document.js';
import { footerOf } from './footer.js';
import { type Block, type Paper, type PaperSize, type Part, partsOf, type Row } from './paper/document.js';
import { capitalised, countWords, dateWords, fullDayWords, timeWords } from './words.js';
import { boxCount, markedUnit, workOf } from './work.js';

export interface FloorOptions {
  readonly date: IsoDate;
  readonly printedOn: IsoDate;
  readonly size: PaperSize;
  readonly large: boolean;
}

/** Plates are drawn so large that a row stays low. */
const PLATES_SCALE = 0.7;

/** Later than any time of a day. */
const NO_TIME = 24 * 60;

/** One set group of one person at a station. */
interface Use {
  readonly session: Session;
  readonly cell: ResolvedCell;
  readonly group: ResolvedGroup;
  /** Place of the movement in her own day, from 1. */
  readonly turn: number;
  readonly eachSideKg: readonly number[];
}

/** Sessions at a kit on a date, in order of their times, those without one last; then of the clients' names. */
export function sessionsAt(plans: readonly ClientPlan[], kitKey: string, date: IsoDate): readonly Session[] {
  return plans
    .flatMap(({ sessions }) =>
      sessions.filter((session) => session.date === date && session.kit?.key === kitKey),
    )
    .sort(
      (a, b) =>
        (a.startMinute ?? NO_TIME) - (b.startMinute ?? NO_TIME) ||
        (a.client.key < b.client.key ? -1 : a.client.key > b.client.key ? 1 : 0),
    );
}

/** The sheet of one kit on one date. */
export function buildFloorSheet(kit: Kit, sessions: readonly Session[], options: FloorOptions): Paper {
  const when = fullDayWords(options.date);
  const people = new Set(sessions.map(({ client }) => client.key)).size;
  return {
    title: say`Floor sheet, ${kit.name}, ${dateWords(options.date)}`,
    page: options.size,
    landscape: false,
    footer: footerOf(kit.name, dateWords(options.date), say`printed ${dateWords(options.printedOn)}`),
    fontPt: options.large ? 16 : 9,
    onePage: false,
    leastFontPt: 7,
    sections: [
      {
        heading: say`${capitalised(kit.name)}: by station`,
        aside: `${when} · ${countWords(people, 'person', 'people')}`,
        notes: [],
        texts: [],
        blocks: [{ kind: 'table', table: peopleTable(sessions) }, ...stationBlocks(kit, sessions)],
        closing: [said(STOP_WORDS)],
      },
      {
        heading: say`${capitalised(kit.name)}: by person`,
        aside: when,
        notes: [],
        texts: [],
        blocks: sessions.flatMap(personBlocks),
        closing: [],
      },
    ],
  };
}

function peopleTable(sessions: readonly Session[]) {
  return {
    name: say('Who is here'),
    columns: [
      { title: say('Who'), share: 0.22 },
      { title: say('Day'), share: 0.28 },
      { title: say('Look out for'), share: 0.5 },
    ],
    rows: sessions.map(({ client, day, block, week, deload, supervised, startMinute }): Row => {
      const notes = [
        deload ? say('Lighter week.') : null,
        supervised ? say('With a coach.') : null,
        ...client.care,
      ];
      const avoided = client.avoids.map(
        ({ what, reason }) => say`No ${what}${reason === null ? '' : ` (${reason})`}.`,
      );
      return {
        kind: 'row',
        cells: [
          partsOf('big', client.name),
          [
            ...partsOf(
              'plain',
              [...(startMinute === null ? [] : [timeWords(startMinute)]), capitalised(day.name)].join(
                BETWEEN,
              ),
            ),
            ...partsOf('small', say`${capitalised(block.name)}, week ${week} of ${block.weeks}`),
          ],
          partsOf('plain', ...notes, ...avoided),
        ],
        source: client.place,
      };
    }),
  };
}

/** Everything that is used at a station, by the station's name. */
function stationsOf(sessions: readonly Session[]): ReadonlyMap<string, readonly Use[]> {
  const stations = new Map<string, Use[]>();
  for (const session of sessions) {
    session.cells.forEach((cell, index) => {
      for (const group of cell.groups) {
        const name = stationName(cell, group);
        const use = { session, cell, group, turn: index + 1, eachSideKg: group.eachSideKg ?? [] };
        const known = stations.get(name);
        if (known) known.push(use);
        else stations.set(name, [use]);
      }
    });
  }
  const rank = (uses: readonly Use[]): number => (uses[0] ? stationRank(uses[0]) : STATIONS.length);
  return new Map([...stations].sort(([a, ofA], [b, ofB]) => rank(ofA) - rank(ofB) || (a < b ? -1 : 1)));
}

function stationName(cell: ResolvedCell, group: ResolvedGroup): string {
  const implement = cell.movement?.implement ?? { kind: 'bodyweight' as const };
  if (group.eachSideKg !== null) return group.bar === null ? say('Bar') : say`Bar: ${group.bar}`;
  switch (implement.kind) {
    case 'barbell':
      return say('Bar');
    case 'machine':
      return say`Machine: ${implement.key}`;
    case 'dumbbell':
    case 'dumbbells':
      return say('Dumbbells');
    case 'kettlebell':
      return say('Kettlebells');
    case 'pack':
      return say('Pack');
    case 'band':
      return say('Bands');
    case 'bodyweight':
      return say('Floor');
  }
}

/** The order of the stations in a room. */
const STATIONS: readonly string[] = [
  'barbell',
  'machine',
  'dumbbell',
  'kettlebell',
  'pack',
  'band',
  'bodyweight',
];

function isAtBar({ cell, group }: Pick<Use, 'cell' | 'group'>): boolean {
  return group.eachSideKg !== null || cell.movement?.implement.kind === 'barbell';
}

function stationRank(use: Pick<Use, 'cell' | 'group'>): number {
  const kind = isAtBar(use) ? 'barbell' : (use.cell.movement?.implement.kind ?? 'bodyweight');
  return STATIONS.indexOf(kind === 'dumbbells' ? 'dumbbell' : kind);
}

const barColumns = () => [
  { title: say('Who'), share: 0.19 },
  { title: say('Movement'), share: 0.2 },
  { title: say('Sets × reps'), share: 0.16 },
  { title: say('Load'), share: 0.25 },
  { title: say('Change first, each side'), share: 0.2 },
];
const columns = () => [
  { title: say('Who'), share: 0.3 },
  { title: say('Movement'), share: 0.25 },
  { title: say('Sets × reps'), share: 0.2 },
  { title: say('Load'), share: 0.25 },
];

function stationBlocks(kit: Kit, sessions: readonly Session[]): readonly Block[] {
  return [...stationsOf(sessions)].flatMap(([name, uses]): Block[] => {
    const isBar = uses[0] !== undefined && isAtBar(uses[0]);
    const bar = isBar
      ? kit.model.bars.find((known) => (uses[0]?.group.bar ?? null) === known.name)
      : undefined;
    const unit = markedUnit(kit, uses[0]?.cell.movement ?? null, 'kg');
    const aside = isBar
      ? say`${bar ? say`${formatMass(bar.kg, unit)} bar; ` : ''}in the order in which plates move least`
      : null;
    const caption = { text: name, aside };
    const table = isBar
      ? { name, caption, columns: barColumns(), rows: barRows(uses, unit) }
      : {
          name,
          caption,
          columns: columns(),
          rows: togetherRows(uses),
        };
    return [{ kind: 'table', table }];
  });
}

function cellsOf(use: Use, drawn: Part | null = null): readonly (readonly Part[])[] {
  const { session, cell, group } = use;
  const work = workOf(cell, group);
  const load = work.load ?? (work.chooseLoad ? say('choose on the day') : null);
  return [
    [...partsOf('big', session.client.name), ...partsOf('small', turnWords(use))],
    [
      ...partsOf('plain', capitalised(cell.movement?.name ?? cell.row.movementName.text)),
      ...partsOf('small', cell.row.label),
    ],
    [...partsOf('big', work.dose), ...partsOf('small', work.effort)],
    [
      ...partsOf('big', load),
      ...(drawn === null ? [] : [drawn]),
      ...partsOf('small', work.plates, work.note),
    ],
  ];
}

/** Uses away from a bar: who does the same with the same load stands in one row. In the order of the day. */
function togetherRows(uses: readonly Use[]): readonly Row[] {
  const rows = new Map<string, { readonly first: Use; readonly names: string[] }>();
  for (const use of uses) {
    const [, ...what] = cellsOf(use);
    const key = JSON.stringify([use.turn, what]);
    const known = rows.get(key);
    if (known) known.names.push(use.session.client.name);
    else rows.set(key, { first: use, names: [use.session.client.name] });
  }
  return [...rows.values()]
    .sort((a, b) => a.first.turn - b.first.turn)
    .map(({ first, names }): Row => {
      const [, ...what] = cellsOf(first);
      const who = [...partsOf('big', [...new Set(names)].join(', ')), ...partsOf('small', turnWords(first))];
      return { kind: 'row', cells: [who, ...what], source: first.cell.place };
    });
}

const turnWords = ({ turn }: Use): string => say`movement ${turn} of the day`;

/**
 * The uses of a bar in the order in which plates move least, with what has to be changed before each. Who comes at
 * another time comes at another time: the order is free among those who begin together.
 */
function barRows(uses: readonly Use[], unit: MassUnit): readonly Row[] {
  const times = [...new Set(uses.map(({ session }) => session.startMinute ?? NO_TIME))].sort((a, b) => a - b);
  let before: readonly number[] = [];
  return times.flatMap((time): Row[] => {
    const queues = new Map<Session, Use[]>();
    for (const use of uses)
      if ((use.session.startMinute ?? NO_TIME) === time)
        queues.set(use.session, [...(queues.get(use.session) ?? []), use]);
    const rows = orderUses([...queues.values()], before).map((use): Row => {
      const change = changeWords(before, use.eachSideKg, unit);
      before = use.eachSideKg;
      const drawn = { kind: 'picture', picture: platesPicture(use.eachSideKg, unit, PLATES_SCALE) } as const;
      return {
        kind: 'row',
        cells: [...cellsOf(use, drawn), partsOf('plain', ...change)],
        source: use.cell.place,
      };
    });
    const text = time === NO_TIME ? say('Without a time') : timeWords(time);
    return times.length === 1 ? rows : [{ kind: 'band', text, aside: null }, ...rows];
  });
}

/** `off 2.5`, `on 5 + 1.25`; `nothing to change`. */
export function changeWords(
  before: readonly number[],
  after: readonly number[],
  unit: MassUnit,
): readonly string[] {
  const { offKg, onKg } = plateChange(before, after);
  const plates = (kg: readonly number[]) =>
    `${kg.map((plate) => formatNumber(fromKg(plate, unit))).join(' + ')} ${unit}`;
  if (offKg.length + onKg.length === 0) return [say('nothing to change')];
  return [
    ...(offKg.length === 0 ? [] : [say`off: ${plates(offKg)}`]),
    ...(onKg.length === 0 ? [] : [say`on: ${plates(onKg)}`]),
  ];
}

const personColumns = () => [
  { title: say('Movement'), share: 0.3 },
  { title: say('Sets × reps'), share: 0.22 },
  { title: say('Load'), share: 0.24 },
  { title: say('Done'), share: 0.24 },
];

function personBlocks(session: Session): readonly Block[] {
  const sheet = daySheet(session);
  const { startMinute } = session;
  const rows = session.cells.flatMap((cell) =>
    cell.groups.map((group, index): Row => {
      const work = workOf(cell, group);
      const name = capitalised(cell.movement?.name ?? cell.row.movementName.text);
      const rounds = cell.row.circuit?.roundsByWeek[cell.week - 1] ?? null;
      const cells = [
        index === 0
          ? [
              ...partsOf('plain', name),
              ...partsOf(
                'small',
                cell.row.label,
                cell.row.circuit === null ? null : say`circuit: ${cell.row.circuit.name}`,
              ),
            ]
          : partsOf('plain', say('then')),
        [...partsOf('plain', work.dose), ...partsOf('small', work.effort)],
        [
          ...partsOf('plain', work.load ?? (work.chooseLoad ? say('choose on the day') : null)),
          ...partsOf('small', work.plates, work.note),
        ],
        [{ kind: 'boxes', count: boxCount(group, rounds) } as const],
      ];
      return { kind: index === 0 ? 'row' : 'more', cells, source: cell.place };
    }),
  );
  const caption = {
    text: session.client.name,
    aside: [
      ...(startMinute === null ? [] : [timeWords(startMinute)]),
      sheet.name,
      ...session.client.care,
    ].join(' · '),
  };
  return [
    {
      kind: 'table',
      table: { name: `${session.client.name}: ${sheet.name}`, caption, columns: personColumns(), rows },
    },
  ];
}
