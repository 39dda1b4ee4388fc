/** The session card: one day on one small page. */

import { later, said, say } from '../../../../grammar/say.js';
import type { IsoDate } from '../dates.js';
import type { ClientPlan, Session, World } from '../model.js';
import { platesPicture } from '../plots/plates.js';
import { contextOf, daySheet, type SheetContext } from './build.js';
import {
  besideWords,
  type EntrySheet,
  type MovementSheet,
  sessionLines,
  underLines,
  type WorkSheet,
} from './document.js';
import { footerOf } from './footer.js';
import {
  type Paper,
  type PaperSection,
  type PaperSize,
  type Part,
  partsOf,
  type Row,
  type WordPart,
} from './paper/document.js';
import { capitalised, dateWords, listWords } from './words.js';

/** `last time: 42.5 kg, 3 × 6, planned 4 Dec`. */
function lastWords({ last = [] }: WorkSheet): string | null {
  return last.length === 0 ? null : say`last time: ${last.join(', ')}`;
}

export interface CardOptions {
  readonly printedOn: IsoDate;
  readonly size: PaperSize;
  readonly large: boolean;
}

/** Plates are drawn smaller than on a page. */
const CARD_PLATES = 0.75;
const BRIEF_PLATES = 0.5;

/** What must stand on everything that is carried to the bar. */
export const STOP_WORDS = later(
  'Stop at once and get help: pain or pressure in the chest, dizziness, faintness, breathlessness that does not fit the effort. Stop the movement: sharp or growing pain. A qualified professional who knows you decides; take less whenever a set feels harder than written.',
);

const columns = () => [
  { title: say('Movement'), share: 0.28 },
  { title: say('Sets × reps'), share: 0.19 },
  { title: say('Load'), share: 0.27 },
  { title: say('Done'), share: 0.26 },
];

/** A card for each of the sessions: as a rule those of one date. */
export function buildCards(
  plan: ClientPlan,
  sessions: readonly Session[],
  options: CardOptions,
  world: World | null = null,
): Paper {
  const context = world === null ? undefined : contextOf(plan, world, options.printedOn);
  const { client } = plan;
  const dates = [...new Set(sessions.map(({ date }) => dateWords(date)))];
  const programs = listWords([...new Set(sessions.map(({ program }) => program.name))]);
  const card = (brief: boolean): Paper => ({
    title: say`Session of ${client.name}, ${dates.length === 1 ? dates[0] : say`${dates[0]} to ${dates[dates.length - 1]}`}`,
    page: options.large ? options.size : options.size === 'a4' ? 'a5' : 'half-letter',
    landscape: false,
    footer: footerOf(client.name, programs, say`printed ${dateWords(options.printedOn)}`),
    sections: sessions.map((session) => cardSection(session, context, brief)),
    fontPt: options.large ? 16 : 11,
    onePage: !options.large,
    leastFontPt: brief ? 7 : 7.5,
  });
  return options.large ? card(false) : { ...card(false), shorter: card(true) };
}

/** `brief`: without how a movement is done and what is easier, which the plan says. */
function cardSection(session: Session, context: SheetContext | undefined, brief: boolean): PaperSection {
  const sheet = daySheet(session, context);
  const { block, week } = session;
  const notes = session.deload
    ? [say('Lighter week: fewer sets and more in reserve. Do not add to it.')]
    : [];
  return {
    heading: `${sheet.name} · ${session.client.name}`,
    aside: say`${sheet.when} · ${capitalised(block.name)}, week ${week} of ${block.weeks}`,
    notes: [...notes, ...session.client.care],
    texts: [],
    blocks: [
      {
        kind: 'table',
        table: {
          name: say`${sheet.name}: movements`,
          columns: columns(),
          rows: sheet.entries.flatMap((entry) => entryRows(entry, session, brief)),
        },
      },
      { kind: 'lines', labels: sessionLines() },
    ],
    closing: [said(STOP_WORDS)],
  };
}

function entryRows(entry: EntrySheet, session: Session, brief: boolean): readonly Row[] {
  if (entry.kind === 'text') return [{ kind: 'words', text: entry.text, aside: null }];
  if (entry.kind === 'circuit') return [{ kind: 'band', text: entry.heading, aside: entry.how }];
  const { movement } = entry;
  const { units } = session.client;
  return brief
    ? movementRows({ ...movement, cue: null, easier: null }, units, BRIEF_PLATES)
    : movementRows(movement, units);
}

/** The rows of a movement: a row for each set group. */
export function movementRows(
  movement: MovementSheet,
  unit: 'kg' | 'lb',
  scale = CARD_PLATES,
): readonly Row[] {
  const rows = movement.work.map((work, index): Row => {
    const dose = [...partsOf('big', work.dose), ...partsOf('small', work.effort)];
    const boxes: readonly Part[] = [{ kind: 'boxes', count: work.boxes }];
    const load = loadParts(work, unit, scale);
    const { source = null } = movement;
    if (index > 0) return { kind: 'more', cells: [partsOf('plain', say('then')), dose, load, boxes], source };
    const name = [...partsOf('big', movement.name), ...partsOf('small', besideWords(movement))];
    return { kind: 'row', cells: [name, dose, load, boxes], source };
  });
  return [...rows, ...underRows(movement)];
}

/** What stands under a movement, as a row of its own; none where there is nothing to say. */
function underRows(movement: MovementSheet): readonly Row[] {
  const kinds = { coach: 'big', plain: 'plain', cue: 'cue' } as const;
  const lines = underLines(movement).map((line) =>
    line.map(({ kind, text }): WordPart => ({ kind: kinds[kind], text })),
  );
  const { source = null } = movement;
  return lines.length === 0 ? [] : [{ kind: 'under', lines, source }];
}

/** Load, plates in words and drawn, and the load of last time. */
export function loadParts(work: WorkSheet, unit: 'kg' | 'lb', scale = 1): readonly Part[] {
  const side = work.side ?? null;
  return [
    ...(work.chooseLoad ? [{ kind: 'line' } as const] : []),
    ...partsOf('big', work.load),
    ...(side === null
      ? []
      : [{ kind: 'picture', picture: platesPicture(side.eachSideKg, side.unit ?? unit, scale) } as const]),
    ...partsOf('small', work.plates, lastWords(work)),
  ];
}
