/** The roster: one line a client, the most urgent first, for the coach on one morning. */

import { said, say } from '../../../../grammar/say.js';
import type { IsoDate } from '../dates.js';
import type { Need, RosterLine } from '../history/roster.js';
import type { Place, ResolvedCell } from '../model.js';
import { footerOf } from './footer.js';
import { type Paper, type PaperSize, type Part, partsOf, type Row } from './paper/document.js';
import { FOR_COACH } from './review.js';
import { capitalised, countWords, dateWords, dayWords, fullDayWords, timeWords } from './words.js';
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

const columns = () => [
  { title: say('Client'), share: 0.15 },
  { title: say('Where she is'), share: 0.19 },
  { title: say('Next session'), share: 0.33 },
  { title: say('To decide'), share: 0.33 },
];

/** The document of a roster; `lines` in the order in which they are to stand. */
export function buildRoster(lines: readonly RosterLine[], options: RosterOptions): Paper {
  const groups = [
    { text: say('To decide today'), own: lines.filter((line) => urgency(line) <= TODAY_URGENCY) },
    {
      text: say('Soon'),
      own: lines.filter((line) => urgency(line) > TODAY_URGENCY && line.needs.length > 0),
    },
    { text: say('Nothing to decide'), own: lines.filter(({ needs }) => needs.length === 0) },
  ].filter(({ own }) => own.length > 0);
  return {
    title: say`Roster, ${dateWords(options.today)}`,
    page: options.size,
    landscape: true,
    footer: footerOf(say('Roster'), dateWords(options.today), say`printed ${dateWords(options.printedOn)}`),
    fontPt: options.large ? 16 : 9,
    onePage: false,
    leastFontPt: 7,
    sections: [
      {
        heading: say('Roster'),
        aside: `${fullDayWords(options.today)} · ${countWords(lines.length, 'client')}`,
        notes: lines.length === 0 ? [say('No client is written in these files.')] : [],
        texts: [],
        blocks:
          lines.length === 0
            ? []
            : [
                {
                  kind: 'table',
                  table: {
                    name: say('Clients, the most urgent first'),
                    columns: columns(),
                    rows: groups.flatMap(({ text, own }): Row[] => [
                      { kind: 'band', text, aside: countWords(own.length, 'client') },
                      ...own.map((line) => clientRow(line, options)),
                    ]),
                  },
                },
              ],
        closing: [said(FOR_COACH)],
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
        ...partsOf('small', lastLogged === null ? say('no log yet') : say`last log ${dateWords(lastLogged)}`),
      ],
      at === null
        ? partsOf('plain', say('no program'))
        : [
            { kind: 'plain', text: at.program.name, source: at.program.place },
            {
              kind: 'small',
              text: say`${capitalised(at.block.name)}, week ${at.week} of ${at.block.weeks}`,
              source: at.block.place,
            },
          ],
      next === null
        ? partsOf('plain', say('no session ahead'))
        : [
            {
              kind: 'plain',
              text: `${dayWords(next.date)}${next.startMinute === null ? '' : ` · ${timeWords(next.startMinute)}`} · ${capitalised(next.day.name)}${next.deload ? say(' (lighter)') : ''}`,
              source: next.day.place,
            },
            // One after the other: under each other a full day would leave four clients on a page.
            {
              kind: 'run',
              parts: next.cells.map((cell) => ({ kind: 'small', text: cellWords(cell), source: cell.place })),
            },
          ],
      needs.length === 0
        ? partsOf('plain', say('nothing'))
        : needs.flatMap((need) => needParts(need, options)),
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
  if (cell.test) return say`${name}: test, heaviest ${cell.test.reps}`;
  const groups = cell.groups.map((group) => {
    const { dose, load, chooseLoad } = workOf(cell, group);
    return [dose, load ?? (chooseLoad ? say('load to be chosen') : null)]
      .filter((text) => text !== null && text !== '')
      .join(', ');
  });
  return `${name}: ${groups.join('; ')}`;
}
