/** The years: one client's whole history in one view, for the coach. */

import { said, say } from '../../../../grammar/say.js';
import type { IsoDate } from '../dates.js';
import type { Review } from '../history/review.js';
import type { BestSet, YearOfTraining } from '../history/years.js';
import { formatNumber, formatPercent } from '../numbers.js';
import { linesPicture, type Series } from '../plots/history.js';
import { formatMass, fromKg } from '../units.js';
import { footerOf } from './footer.js';
import {
  adherencePicture,
  firstDate,
  massWords,
  mostTold,
  pastWeeks,
  STRENGTH_LEGEND,
  strengthPictures,
  volumePicture,
} from './historyPictures.js';
import {
  type Block,
  PAGE_POINTS,
  type Paper,
  type PaperSection,
  type PaperSize,
  partsOf,
  placed,
  type Row,
} from './paper/document.js';
import { FOR_COACH } from './review.js';
import { capitalised, countWords, dateWords, listWords } from './words.js';

export interface YearsOptions {
  readonly printedOn: IsoDate;
  readonly size: PaperSize;
  readonly large: boolean;
}

/** So many pictures of strength leave room for the others on the first page. */
const FIRST_PICTURES = 6;
/** Lines in one picture that can still be told apart. */
const MOST_LINES = 4;
/** Columns of years beside each other. */
const MOST_YEARS = 6;

/** The document of a client's years. The review has to be that of all of her time. */
export function buildYears(review: Review, options: YearsOptions): Paper {
  const { client, today } = review;
  return {
    title: say`Years of ${client.name}`,
    page: options.size,
    landscape: true,
    footer: footerOf(
      client.name,
      say`years up to ${dateWords(today)}`,
      say`printed ${dateWords(options.printedOn)}`,
    ),
    fontPt: options.large ? 16 : 9,
    onePage: false,
    leastFontPt: 7,
    sections: [pictures(review, options), tables(review)],
  };
}

function pictures(review: Review, { size, large }: YearsOptions): PaperSection {
  const widthPt = PAGE_POINTS[size][1] - 2 * 26;
  const each = large ? (widthPt - 14) / 2 : (widthPt - 28) / 3;
  const dates = { from: firstDate(review), to: review.today };
  const half = large ? widthPt : (widthPt - 14) / 2;
  const weeks = pastWeeks(review);
  const strength = strengthPictures(review, dates, each, 98);
  const unit = review.client.units;
  const masses = review.client.masses
    .flatMap(({ date, kg }) => (date === null || date > review.today ? [] : [{ date, value: kg }]))
    .sort((a, b) => (a.date < b.date ? -1 : 1));
  const relative = relativeSeries(review, masses);
  const bodies = [
    ...(masses.length === 0
      ? []
      : [
          linesPicture(
            say('Body mass'),
            [{ name: say('Body mass'), points: masses }],
            dates,
            (kg) => massWords(kg, unit),
            half,
            96,
          ),
        ]),
    ...(relative.length === 0
      ? []
      : [
          linesPicture(
            say('Estimated best, times body mass'),
            relative,
            dates,
            (times) => formatNumber(times, 2),
            half,
            96,
          ),
        ]),
  ];
  const amounts = weeks.length === 0 ? [] : [volumePicture(weeks, unit, half), adherencePicture(weeks, half)];
  const nothing = strength.length + amounts.length + bodies.length === 0;
  return {
    heading: say`${review.client.name}: the years`,
    aside: say`${dateWords(dates.from)} to ${dateWords(review.today)}`,
    notes: nothing
      ? [say('Nothing is known of her yet: no log, no max and no session that has passed.')]
      : [],
    texts: [],
    blocks: [
      ...section(say('Strength'), strength.slice(0, FIRST_PICTURES)),
      ...(strength.length === 0 ? [] : [{ kind: 'text', text: said(STRENGTH_LEGEND) } as const]),
      ...section(say('Work and body'), [...amounts, ...bodies]),
      ...section(say('More strength'), strength.slice(FIRST_PICTURES)),
    ],
    closing: [said(FOR_COACH)],
  };
}

function section(text: string, drawn: Extract<Block, { kind: 'pictures' }>['pictures']): readonly Block[] {
  if (drawn.length === 0) return [];
  return [
    { kind: 'heading', text, aside: null },
    { kind: 'pictures', pictures: drawn },
  ];
}

/** Estimates over the newest body mass of their day. */
function relativeSeries(review: Review, masses: Series['points']): readonly Series[] {
  const massOf = (date: IsoDate): number | null =>
    masses.findLast((each) => each.date <= date)?.value ?? masses[0]?.value ?? null;
  return mostTold(review)
    .map(({ movement, estimates }) => ({
      name: capitalised(movement.name),
      points: estimates.flatMap(({ date, kg }) => {
        const mass = massOf(date);
        return mass === null || mass <= 0 ? [] : [{ date, value: kg / mass }];
      }),
    }))
    .filter(({ points }) => points.length > 0)
    .slice(0, MOST_LINES);
}

function tables(review: Review): PaperSection {
  const signOffs = [...review.client.signOffs].sort((a, b) => (a.date < b.date ? -1 : 1));
  return {
    flows: true,
    heading: say`${review.client.name}: year by year`,
    aside: countWords(review.years.length, 'year'),
    notes: [],
    texts: review.between.map(({ kind, before, after, days, lostSessions }) => {
      const one = say`${before.follows.programName.text} (to ${dateWords(before.until)})`;
      const other = say`${after.follows.programName.text} (from ${dateWords(after.from)})`;
      return kind === 'gap'
        ? say`${countWords(days, 'day')} without a program between ${one} and ${other}.`
        : say`${countWords(lostSessions, 'session')} cut off between ${one} and ${other}.`;
    }),
    blocks: [
      ...(review.years.length === 0 ? [] : [yearsTable(review), ...bestTables(review)]),
      ...(signOffs.length === 0
        ? []
        : [
            {
              kind: 'table',
              table: {
                name: say('Stages reached'),
                caption: { text: say('Stages reached'), aside: say("the coach's sign-offs") },
                columns: [
                  { title: say('Date'), share: 0.3 },
                  { title: say('Pattern'), share: 0.35 },
                  { title: say('Stage'), share: 0.35 },
                ],
                rows: signOffs.map(
                  ({ date, pattern, stage, place }): Row => ({
                    kind: 'row',
                    source: place,
                    cells: [
                      partsOf('plain', dateWords(date)),
                      partsOf('plain', pattern),
                      partsOf('big', stage),
                    ],
                  }),
                ),
              },
            } as const,
          ]),
    ],
    closing: [],
  };
}

function yearsTable({ years, client }: Review): Block {
  return {
    kind: 'table',
    table: {
      name: say('Years'),
      columns: [
        { title: say('Year'), share: 0.1 },
        { title: say('Sessions logged'), share: 0.16 },
        { title: say`Volume-load, ${client.units}`, share: 0.2 },
        { title: say('Adherence'), share: 0.16 },
        { title: say('Mean body mass'), share: 0.16 },
        { title: say('Signed off'), share: 0.22 },
      ],
      rows: years.map(
        (year): Row => ({
          kind: 'row',
          cells: [
            partsOf('big', String(year.year)),
            partsOf('plain', formatNumber(year.sessionsLogged)),
            partsOf('plain', `${formatNumber(fromKg(year.volumeLoadKg, client.units), 0)} ${client.units}`),
            partsOf(
              'plain',
              year.adherence === null ? say('none planned') : formatPercent(year.adherence, 0),
            ),
            partsOf(
              'plain',
              year.massKg === null ? say('not written') : massWords(year.massKg, client.units),
            ),
            partsOf(
              'plain',
              listWords(year.stages.map(({ stage, pattern }) => `${stage} ${pattern}`)) || say('none'),
            ),
          ],
        }),
      ),
    },
  };
}

/** A row a movement, a column a year. */
function bestTables({ years, client }: Review): readonly Block[] {
  const names = new Map(
    years.flatMap(({ best }) => best.map(({ movement, name }) => [movement, name] as const)),
  );
  const movements = [...names].sort(([a], [b]) => (a < b ? -1 : 1));
  if (movements.length === 0) return [];
  const tables: Block[] = [];
  for (let first = 0; first < years.length; first += MOST_YEARS) {
    const shown = years.slice(first, first + MOST_YEARS);
    const rows = movements.flatMap(([movement, name]): Row[] => {
      const best = shown.map((year) => year.best.find((each) => each.movement === movement));
      if (best.every((each) => each === undefined)) return [];
      return [
        {
          kind: 'row',
          cells: [partsOf('big', capitalised(name)), ...best.map((each) => bestParts(each, client.units))],
        },
      ];
    });
    const share = 0.8 / shown.length;
    tables.push({
      kind: 'table',
      table: {
        name: say`Best sets, ${yearsText(shown)}`,
        caption: { text: say('Best sets by year'), aside: yearsText(shown) },
        columns: [
          { title: say('Movement'), share: 0.2 },
          ...shown.map(({ year }) => ({ title: String(year), share })),
        ],
        rows,
      },
    });
  }
  return tables;
}

function yearsText(years: readonly YearOfTraining[]): string {
  const [first, last] = [years[0]?.year, years[years.length - 1]?.year];
  return first === last ? String(first) : say`${first} to ${last}`;
}

/** Nothing added to the body is no load of nothing. */
function loadWords({ loadKg }: BestSet, unit: 'kg' | 'lb'): string {
  return loadKg === 0 ? say('body weight') : formatMass(loadKg, unit);
}

function bestParts(best: BestSet | undefined, unit: 'kg' | 'lb') {
  if (!best) return partsOf('small', say('none'));
  const relative = best.perBodyMass === null ? '' : say`, ${formatNumber(best.perBodyMass)} × body mass`;
  return placed(best.place, [
    ...partsOf('plain', `${loadWords(best, unit)} × ${formatNumber(best.reps)}`),
    ...partsOf(
      'small',
      say`${formatNumber(best.reserve, 1)} left, ${dateWords(best.date)}`,
      say`estimated best ${massWords(best.estimatedOneRepMaxKg, unit)}${relative}`,
    ),
  ]);
}
