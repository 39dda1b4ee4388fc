/** The roster: one line a client, the most urgent first, for the coach on one morning. */

import type { IsoDate } from '../dates.js';
import type { Need, RosterLine } from '../history/roster.js';
import type { Place, ResolvedCell } from '../model.js';
import { type Paper, type PaperSize, type Part, partsOf, type Row } from './paper/document.js';
import { FOR_COACH } from './review.js';
import { capitalised, countWords, dateWords, dayWords, timeWords } from './words.js';
import { workOf } from './work.js';

export interface RosterOptions {
  readonly today: IsoDate;
  readonly printedOn: IsoDate;
  readonly size: PaperSize;
  readonly large: boolean;
  /** A place as words, `clients/wren.stave:12`, where it should be printed beside each need. */
  readonly placeWords?: (place: Place) => string;
}

/** Up to this urgency a need is for today. */
const TODAY_URGENCY = 4;

const COLUMNS = [
  { title: 'Client', share: 0.15 },
  { title: 'Where she is', share: 0.19 },
  { title: 'Next session', share: 0.33 },
  { title: 'To decide', share: 0.33 },
];

/** The document of a roster; `lines` in the order in which they are to stand. */
export function buildRoster(lines: readonly RosterLine[], options: RosterOptions): Paper {
  const groups = [
    { text: 'To decide today', own: lines.filter((line) => urgency(line) <= TODAY_URGENCY) },
    { text: 'Soon', own: lines.filter((line) => urgency(line) > TODAY_URGENCY && line.needs.length > 0) },
    { text: 'Nothing to decide', own: lines.filter(({ needs }) => needs.length === 0) },
  ].filter(({ own }) => own.length > 0);
  return {
    title: `Roster, ${dateWords(options.today)}`,
    page: options.size,
    landscape: true,
    footer: ['Roster', dateWords(options.today), `printed ${dateWords(options.printedOn)}`].join(' · '),
    fontPt: options.large ? 16 : 9,
    onePage: false,
    leastFontPt: 7,
    sections: [
      {
        heading: 'Roster',
        aside: `${dayWords(options.today)} ${options.today.slice(0, 4)} · ${countWords(lines.length, 'client')}`,
        notes: lines.length === 0 ? ['No client is written in these files.'] : [],
        texts: [],
        blocks:
          lines.length === 0
            ? []
            : [
                {
                  kind: 'table',
                  table: {
                    name: 'Clients, the most urgent first',
                    columns: COLUMNS,
                    rows: groups.flatMap(({ text, own }): Row[] => [
                      { kind: 'band', text, aside: countWords(own.length, 'client') },
                      ...own.map((line) => clientRow(line, options)),
                    ]),
                  },
                },
              ],
        closing: [FOR_COACH],
      },
    ],
  };
}

function urgency({ needs }: RosterLine): number {
  return needs[0]?.urgency ?? Number.POSITIVE_INFINITY;
}

function clientRow({ client, at, next, lastLogged, needs }: RosterLine, options: RosterOptions): Row {
  return {
    kind: 'row',
    source: client.place,
    cells: [
      [
        ...partsOf('big', client.name),
        ...partsOf('small', lastLogged === null ? 'no log yet' : `last log ${dateWords(lastLogged)}`),
      ],
      at === null
        ? partsOf('plain', 'no program')
        : [
            { kind: 'plain', text: at.program.name, source: at.program.place },
            {
              kind: 'small',
              text: `${capitalised(at.block.name)}, week ${at.week} of ${at.block.weeks}`,
              source: at.block.place,
            },
          ],
      next === null
        ? partsOf('plain', 'no session ahead')
        : [
            {
              kind: 'plain',
              text: `${dayWords(next.date)}${next.startMinute === null ? '' : ` · ${timeWords(next.startMinute)}`} · ${capitalised(next.day.name)}${next.deload ? ' (lighter)' : ''}`,
              source: next.day.place,
            },
            ...next.cells.map((cell): Part => ({ kind: 'small', text: cellWords(cell), source: cell.place })),
          ],
      needs.length === 0 ? partsOf('plain', 'nothing') : needs.flatMap((need) => needParts(need, options)),
    ],
  };
}

function needParts({ text, place, urgency }: Need, { placeWords }: RosterOptions): readonly Part[] {
  return [
    { kind: urgency <= TODAY_URGENCY ? 'big' : 'plain', text: capitalised(text), source: place },
    ...(placeWords ? [{ kind: 'cue', text: placeWords(place), source: place } as const] : []),
  ];
}

/** `Back squat: 3 × 6, 45 kg; 3 × 8, 40 kg`. */
function cellWords(cell: ResolvedCell): string {
  const name = capitalised(cell.movement?.name ?? cell.row.movementName.text);
  if (cell.test) return `${name}: test, heaviest ${cell.test.reps}`;
  const groups = cell.groups.map((group) => {
    const { dose, load, chooseLoad } = workOf(cell, group);
    return [dose, load ?? (chooseLoad ? 'load to be chosen' : null)]
      .filter((text) => text !== null && text !== '')
      .join(', ');
  });
  return `${name}: ${groups.join('; ')}`;
}
