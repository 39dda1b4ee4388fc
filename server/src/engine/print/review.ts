/** The review: what was planned and done, session by session and week by week, for the coach. */

import { later, plural, said, say } from '../../../../grammar/say.js';
import { addDays, type IsoDate } from '../dates.js';
import type { MovementComparison, SessionComparison, WeekComparison, Work } from '../history/compare.js';
import type { Offer } from '../history/offers.js';
import type { Review } from '../history/review.js';
import { doneWords, insteadWords, STATE_WORDS, SUPPORT_WORDS, signed, workWords } from '../history/words.js';
import type { ResolvedCell } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import { fromKg, type MassUnit } from '../units.js';
import { footerOf } from './footer.js';
import {
  adherencePicture,
  firstDate,
  massWords,
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
  type Row,
  type Table,
} from './paper/document.js';
import { capitalised, countWords, dateRangeWords, dateWords, dayWords } from './words.js';
import { workOf } from './work.js';

export interface ReviewOptions {
  readonly printedOn: IsoDate;
  readonly size: PaperSize;
  readonly large: boolean;
  /** First day whose sessions are told one by one; null: the last half year. Weeks are told from the first on. */
  readonly from: IsoDate | null;
}

/** Weeks told session by session where nobody asks for more. */
const DETAIL_DAYS = 26 * 7;

export const FOR_COACH = later(
  'For the coach. Estimates are estimates; a qualified professional decides about pain and illness.',
);

/** The document of a review. */
export function buildReview(review: Review, options: ReviewOptions): Paper {
  const { client, today } = review;
  const detailFrom = options.from ?? addDays(today, -DETAIL_DAYS);
  return {
    title: say`Review of ${client.name}`,
    page: options.size,
    landscape: false,
    footer: footerOf(
      client.name,
      say`review on ${dateWords(today)}`,
      say`printed ${dateWords(options.printedOn)}`,
    ),
    fontPt: options.large ? 16 : 9,
    onePage: false,
    leastFontPt: 7,
    sections: [now(review, options), weeksSection(review), ...sessionsSection(review, detailFrom)],
  };
}

function now(review: Review, { size, large }: ReviewOptions): PaperSection {
  const widthPt = PAGE_POINTS[size][0] - 2 * 26;
  const weeks = pastWeeks(review);
  const dates = { from: firstDate(review), to: review.today };
  const strength = strengthPictures(review, dates, large ? widthPt : (widthPt - 14) / 2, 104);
  const unit = review.client.units;
  return {
    heading: say`${review.client.name}: review`,
    aside: dateWords(review.today),
    notes:
      review.adherence === null
        ? [say('Nothing has been logged yet of what was planned.')]
        : [say`${formatPercent(review.adherence, 0)} of the planned sets so far were logged as done.`],
    texts: [],
    blocks: [
      { kind: 'heading', text: say('To decide'), aside: null },
      ...offerBlocks(review.offers),
      ...(review.movements.length === 0
        ? []
        : [
            { kind: 'heading', text: say('Strength'), aside: null } as const,
            { kind: 'table', table: strengthTable(review) } as const,
            { kind: 'pictures', pictures: strength } as const,
            { kind: 'text', text: said(STRENGTH_LEGEND) } as const,
          ]),
      ...(weeks.length === 0
        ? []
        : [
            { kind: 'heading', text: say('Planned and done'), aside: null } as const,
            {
              kind: 'pictures',
              pictures: [volumePicture(weeks, unit, widthPt), adherencePicture(weeks, widthPt)],
            } as const,
          ]),
    ],
    closing: [said(FOR_COACH)],
  };
}

function offerBlocks(offers: readonly Offer[]): readonly Block[] {
  if (offers.length === 0) return [{ kind: 'text', text: say('Nothing is offered today.') }];
  const rows = offers.map(
    (offer): Row => ({
      kind: 'row',
      source: offer.under,
      cells: [
        [...partsOf('big', offer.title), ...partsOf('plain', offer.line)],
        [
          ...partsOf('plain', offer.why),
          ...offer.rests.flatMap(({ message, place }) =>
            partsOf('small', message).map((part) => ({ ...part, source: place })),
          ),
          ...partsOf('cue', say`Source: ${offer.source}`),
        ],
      ],
    }),
  );
  const columns = [
    { title: say('What, and the line to write'), share: 0.42 },
    { title: say('Why, and what it rests on'), share: 0.58 },
  ];
  return [{ kind: 'table', table: { name: say('To decide'), columns, rows } }];
}

function strengthTable(review: Review): Table {
  const unit = review.client.units;
  return {
    name: say('Strength now'),
    columns: [
      { title: say('Movement'), share: 0.24 },
      { title: say('Estimated best'), share: 0.14 },
      { title: say('Between'), share: 0.2 },
      { title: say('Plan takes'), share: 0.12 },
      { title: say('Times body mass'), share: 0.1 },
      { title: say('The logs show'), share: 0.2 },
    ],
    rows: review.movements.map(({ movement, current, plan, perBodyMass, supports, estimates }) => ({
      kind: 'row',
      source: estimates[estimates.length - 1]?.set.place ?? null,
      cells: [
        partsOf('big', capitalised(movement.name)),
        partsOf('plain', massWords(current.kg, unit)),
        partsOf('plain', say`${massWords(current.lowKg, unit)} and ${massWords(current.highKg, unit)}`),
        partsOf('plain', plan === null ? say('none known') : massWords(plan.kg, unit)),
        partsOf('plain', perBodyMass === null ? say('no mass') : formatNumber(perBodyMass)),
        partsOf('plain', said(SUPPORT_WORDS[supports])),
      ],
    })),
  };
}

const workColumns = () => [say('Sets'), say('Reps'), say('Volume-load'), say('Minutes')];

/** Planned, done and the difference of each amount, one above the other. */
function workCells(planned: Work, done: Work, unit: MassUnit): Row & { readonly kind: 'row' } {
  const of = (value: (work: Work) => number | null, decimals = 0) => {
    const [before, after] = [value(planned), value(done)];
    const amountText = (amount: number | null) =>
      amount === null ? say('not known') : formatNumber(amount, decimals);
    const difference = before === null || after === null ? null : signed(after - before, decimals);
    return [
      ...partsOf('plain', say`${amountText(after)} of ${amountText(before)}`),
      ...partsOf('small', difference === '0' ? null : difference),
    ];
  };
  return {
    kind: 'row',
    cells: [
      of(({ sets }) => sets),
      of(({ reps }) => reps),
      of(({ volumeLoadKg }) => fromKg(volumeLoadKg, unit)),
      of(({ minutes, sets }) => (sets === 0 ? 0 : minutes)),
    ],
  };
}

function weeksSection(review: Review): PaperSection {
  const unit = review.client.units;
  const weeks = pastWeeks(review);
  const rows = weeks.map(
    (week): Row => ({
      kind: 'row',
      source: week.block.place,
      cells: [
        [
          ...partsOf('plain', dateWords(week.from)),
          ...partsOf('small', `${weekName(week)}${week.deload ? say(', lighter') : ''}`),
        ],
        ...workCells(week.planned, week.done, unit).cells,
        partsOf('plain', week.adherence === null ? say('none planned') : formatPercent(week.adherence, 0)),
      ],
    }),
  );
  return {
    flows: true,
    heading: say`${review.client.name}: week by week`,
    aside: say`${countWords(weeks.length, 'week')} · done of planned, and the difference`,
    notes: weeks.length === 0 ? [say('No week of a program has begun.')] : [],
    texts: [],
    blocks:
      rows.length === 0
        ? []
        : [
            {
              kind: 'table',
              table: {
                name: say('Weeks, done of planned'),
                columns: [
                  { title: say('Week from'), share: 0.32 },
                  ...workColumns().map((title) => ({
                    title: title === 'Volume-load' ? `${title}, ${unit}` : title,
                    share: title === 'Volume-load' ? 0.2 : 0.12,
                  })),
                  { title: say('Adherence'), share: 0.12 },
                ],
                rows,
              },
            },
          ],
    closing: [
      say(
        'Minutes planned are worked out from sets, repetitions and rests; minutes done are as logged. Adherence: sets done of sets planned, no session making up for another.',
      ),
    ],
  };
}

function weekName({ program, block, week }: WeekComparison): string {
  return say`${capitalised(block.name)}, week ${week} of ${block.weeks} · ${program.name}`;
}

function sessionsSection(review: Review, from: IsoDate): readonly PaperSection[] {
  const unit = review.client.units;
  const told = pastWeeks(review).filter((week) => addDays(week.from, 6) >= from);
  const extra = review.sessions.filter(({ state, date }) => state === 'extra' && date >= from);
  const blocks: Block[] = told.map((week) => ({
    kind: 'table',
    table: {
      name: say`${weekName(week)}: sessions`,
      caption: {
        text: say`${capitalised(week.block.name)}, week ${week.week} of ${week.block.weeks}`,
        aside: `${dateRangeWords(week.from, addDays(week.from, 6))}${week.deload ? say(' · lighter week') : ''}`,
        source: week.block.place,
      },
      columns: sessionColumns().map((column) =>
        column.title === 'Volume' ? { ...column, title: say`Volume, ${unit}` } : column,
      ),
      rows: week.sessions
        .filter(({ state }) => state !== 'ahead')
        .flatMap((session) => sessionRows(session, unit)),
    },
  }));
  if (extra.length > 0)
    blocks.push({
      kind: 'table',
      table: {
        name: say('Sessions that were not planned'),
        caption: { text: say('Not planned'), aside: null },
        columns: sessionColumns(),
        rows: extra.flatMap((session) => sessionRows(session, unit)),
      },
    });
  if (blocks.length === 0) return [];
  const earlier = pastWeeks(review).length - told.length;
  return [
    {
      flows: true,
      heading: say`${review.client.name}: session by session`,
      aside: say`from ${dateWords(from)}`,
      notes: [],
      texts:
        earlier === 0
          ? []
          : [
              plural(
                earlier,
                say`${earlier} earlier week is told week by week only.`,
                say`${earlier} earlier weeks are told week by week only.`,
              ),
            ],
      blocks,
      closing: [],
    },
  ];
}

const sessionColumns = () => [
  { title: say('Movement'), share: 0.24 },
  { title: say('Planned'), share: 0.24 },
  { title: say('Done'), share: 0.26 },
  { title: say('Sets'), share: 0.07 },
  { title: say('Reps'), share: 0.07 },
  { title: say('Volume'), share: 0.12 },
];

function sessionRows(session: SessionComparison, unit: MassUnit): readonly Row[] {
  const { log, state, planned, done } = session;
  const day = session.session?.day.name ?? null;
  const told = [
    said(STATE_WORDS[state]),
    ...(state === 'extra' ? [] : [say`planned ${workWords(planned, unit)}`]),
    ...(log === null ? [] : [say`done ${workWords(done, unit)}`]),
    ...(log?.rpe == null ? [] : [say`effort ${formatNumber(log.rpe, 1)} of 10`]),
    ...(log?.pains ?? []).map(({ where, score }) => say`pain in ${where}: ${formatNumber(score, 1)} of 10`),
  ].join('; ');
  const head: Row = {
    kind: 'band',
    text: [dayWords(log?.date ?? session.date), day === null ? null : capitalised(day)]
      .filter(Boolean)
      .join(' · '),
    aside: told,
    source: log?.place ?? session.session?.day.place ?? null,
  };
  return [head, ...session.movements.map((each) => movementRow(each, unit))];
}

function movementRow({ done, planned, doneWork }: MovementComparison, unit: MassUnit): Row {
  return {
    kind: 'row',
    source: done.place,
    cells: [
      [
        ...partsOf('plain', capitalised(done.name)),
        ...partsOf('small', done.label, insteadWords(done) || null),
      ],
      partsOf('small', ...(done.cell === null ? [say('not planned')] : plannedWords(done.cell))),
      partsOf('small', doneWords(done, unit)),
      partsOf('plain', signed(doneWork.sets - planned.sets)),
      partsOf('plain', signed(doneWork.reps - planned.reps)),
      partsOf('plain', signed(fromKg(doneWork.volumeLoadKg - planned.volumeLoadKg, unit))),
    ],
  };
}

function plannedWords(cell: ResolvedCell): readonly string[] {
  if (cell.test) return [say`test: heaviest ${cell.test.reps}`];
  return cell.groups.map((group) => {
    const { dose, load, effort } = workOf(cell, group);
    return [dose, load, effort].filter((text) => text !== null && text !== '').join(', ');
  });
}
