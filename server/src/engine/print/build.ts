/** From the resolved plan of one client to the document that is printed. Pure: the printing date is handed in. */

import type { AimName } from '../../../../grammar/index.js';
import { later, said, say } from '../../../../grammar/say.js';
import { addDays, type IsoDate, isAfter } from '../dates.js';
import type { Circuit, ClientPlan, DayEntry, ResolvedCell, Session, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { easierFor } from './badDay.js';
import { CAUTIONS, HOW_TO_READ } from './cautions.js';
import { weekLayout } from './density.js';
import type { DaySheet, EntrySheet, MovementSheet, PlanDocument, WeekSheet, WorkSheet } from './document.js';
import { footerOf } from './footer.js';
import { type LastTimes, lastTimesOf, noLastTimes } from './lastTime.js';
import type { PaperSize } from './paper/document.js';
import { testSteps, warmUpWords } from './warmUp.js';
import {
  capitalised,
  countWords,
  dateRangeWords,
  dateWords,
  dayWords,
  durationWords,
  listWords,
  timeWords,
} from './words.js';
import { boxCount, reserveWords, workOf } from './work.js';

export interface PlanDocumentOptions {
  /** First and last date to print; null is open. */
  readonly from: IsoDate | null;
  readonly until: IsoDate | null;
  readonly printedOn: IsoDate;
  /** Number of findings of severity error on which the plan rests; they are said on the cover. */
  readonly errors: number;
  /** Size of the paper; A4 where it is not said. */
  readonly size?: PaperSize;
}

/** The document of a client's plan: cover, then one sheet for each program week, in order of date. */
export function buildPlanDocument(
  plan: ClientPlan,
  world: World,
  options: PlanDocumentOptions,
): PlanDocument {
  const { client } = plan;
  const { from, until } = options;
  const sessions = plan.sessions.filter(
    ({ date }) => (from === null || date >= from) && (until === null || date <= until),
  );
  const programs = listWords([...new Set(sessions.map(({ program }) => program.name))]);
  const first = sessions[0];
  const last = sessions[sessions.length - 1];
  const dates = first && last ? dateRangeWords(first.date, last.date) : say('no sessions');
  const several = new Set(sessions.map(({ program }) => program.key)).size > 1;
  const context = contextOf(plan, world, options.printedOn);
  const notices: string[] = [];
  if (sessions.length === 0) notices.push(say('There are no sessions in these dates.'));
  if (options.errors > 0) {
    notices.push(
      say`The files of this plan have ${countWords(options.errors, 'mistake')}. Loads that rest on them are left blank. ` +
        say('Ask your coach before you train.'),
    );
  }
  return {
    title: say`Plan for ${client.name}`,
    client: client.name,
    programs,
    dates,
    facts: factsOf(plan, sessions, world),
    care: client.care,
    cautions: CAUTIONS.map(({ heading, text }) => ({ heading: said(heading), text: said(text) })),
    howToRead: HOW_TO_READ.map(({ term, meaning }) => ({ term: said(term), meaning: said(meaning) })),
    notices,
    weeks: weeksOf(sessions).map((week) => weekSheet(week, several, context, options.size)),
    footer: footerOf(client.name, programs, say`printed ${dateWords(options.printedOn)}`),
  };
}

/** What a program is for, said to the client; the notation has the same words in English. */
const AIM_WORDS: Readonly<Record<AimName, string>> = {
  strength: later('strength'),
  power: later('power'),
  size: later('size'),
  endurance: later('endurance'),
  health: later('health'),
  skill: later('skill'),
};

function factsOf(plan: ClientPlan, sessions: readonly Session[], world: World): PlanDocument['facts'] {
  const facts: { label: string; value: string }[] = [];
  const programs = [...new Map(sessions.map(({ program }) => [program.key, program])).values()];
  const aims = [...new Set(programs.flatMap(({ aim }) => (aim === null ? [] : [aim])))];
  if (aims.length > 0)
    facts.push({ label: say('Aim'), value: listWords(aims.map((aim) => said(AIM_WORDS[aim]))) });
  const first = sessions[0];
  const last = sessions[sessions.length - 1];
  if (first && last) facts.push({ label: say('Dates'), value: dateRangeWords(first.date, last.date) });
  if (sessions.length > 0) facts.push({ label: say('Sessions'), value: String(sessions.length) });
  const kits = [...new Set(sessions.flatMap(({ kit }) => (kit === null ? [] : [kit.name])))];
  if (kits.length > 0) facts.push({ label: say('Where'), value: listWords(kits) });
  const missed = plan.missed.filter(({ date }) => first && last && date >= first.date && date <= last.date);
  if (missed.length > 0)
    facts.push({ label: say('Away on'), value: listWords(missed.map(({ date }) => dateWords(date))) });
  const client = world.clients.get(plan.client.key) ?? plan.client;
  const screened =
    client.screened === null ? say('not on record: see your coach first') : dateWords(client.screened);
  facts.push({ label: say('Health screening'), value: screened });
  return facts;
}

/** Sessions of one program week together, in order of their first date. */
function weeksOf(sessions: readonly Session[]): readonly (readonly Session[])[] {
  const weeks = new Map<string, Session[]>();
  for (const session of sessions) {
    const key = `${session.program.key}\n${session.block.index}\n${session.week}`;
    const known = weeks.get(key);
    if (known) known.push(session);
    else weeks.set(key, [session]);
  }
  return [...weeks.values()];
}

function weekSheet(
  sessions: readonly Session[],
  several: boolean,
  context: SheetContext,
  size?: PaperSize,
): WeekSheet {
  const first = sessions[0] as Session;
  const last = sessions[sessions.length - 1] as Session;
  const { block, program, week } = first;
  const days = sessions.map((session) => daySheet(session, context));
  const backShare = Math.min(1, ...sessions.flatMap(({ cells }) => cells.map((cell) => cell.backShare)));
  const notes: string[] = [];
  if (first.deload)
    notes.push(
      say('Lighter week: fewer sets and more in reserve. It is part of the plan; do not add to it.'),
    );
  if (backShare < 1) {
    notes.push(
      say`Back after a break: loads are ${formatNumber(backShare * 100, 0)}% of what they would have been.`,
    );
  }
  const texts = [
    ...(week === 1 && block.index === 0 ? program.node.texts.map(({ text }) => text.text) : []),
    ...(week === 1 ? block.texts : []),
  ];
  const weekEnd = addDays(first.date, 6);
  const { fontPt, breaks } = weekLayout(days, [...notes, ...texts], size, several);
  const heading = say`${capitalised(block.name)}, week ${week} of ${block.weeks}`;
  return {
    heading,
    dates: dateRangeWords(first.date, isAfter(last.date, weekEnd) ? last.date : weekEnd),
    program: several ? program.name : null,
    notes,
    texts,
    days: days.map((day, index) =>
      breaks.includes(index) ? { ...day, continued: say`${heading}, continued` } : day,
    ),
    fontPt,
    source: block.place,
  };
}

/** What a sheet says beside the session itself. */
export interface SheetContext {
  readonly last: LastTimes;
  readonly easier: (cell: ResolvedCell) => string | null;
}

/** Last times and easier movements of a client, on the day of printing. */
export function contextOf(plan: ClientPlan, world: World, today: IsoDate): SheetContext {
  return { last: lastTimesOf(plan, world, today), easier: (cell) => easierFor(cell, world) };
}

const NO_CONTEXT: SheetContext = { last: noLastTimes, easier: () => null };

/** One session as a table of movements, ready to be drawn. */
export function daySheet(session: Session, context: SheetContext = NO_CONTEXT): DaySheet {
  const { startMinute } = session;
  const when = [dayWords(session.date)];
  if (startMinute !== null) when.push(timeWords(startMinute));
  if (session.kit) when.push(session.kit.name);
  if (session.supervised) when.push(say('with your coach'));
  return {
    name: capitalised(session.day.name),
    when: when.join(' · '),
    entries: session.day.entries.flatMap((entry) => entrySheets(entry, session, context)),
    source: session.day.place,
  };
}

function entrySheets(entry: DayEntry, session: Session, context: SheetContext): readonly EntrySheet[] {
  if (entry.kind === 'text') return [{ kind: 'text', text: entry.text }];
  if (entry.kind === 'row') return rowSheets(entry.row.key, session, null, context);
  const rounds = entry.circuit.roundsByWeek[session.week - 1] ?? null;
  const boxes = roundBoxes(entry.circuit, rounds);
  const inside = entry.entries.flatMap((inner) =>
    inner.kind === 'text'
      ? [{ kind: 'text', text: inner.text } as const]
      : rowSheets(inner.row.key, session, boxes, context),
  );
  // A circuit of which every row is left out this week is not there.
  if (!inside.some(({ kind }) => kind === 'movement')) return [];
  const heading = say`Circuit: ${capitalised(entry.circuit.name)}`;
  return [{ kind: 'circuit', heading, how: circuitWords(entry.circuit, rounds) }, ...inside];
}

/** `3 rounds, rest 90 s after each round`. */
function circuitWords(circuit: Circuit, rounds: number | null): string {
  const parts: string[] = [];
  if (rounds !== null) parts.push(countWords(rounds, 'round'));
  if (circuit.seconds !== null) {
    parts.push(
      rounds === null
        ? say`as many good rounds as fit in ${durationWords(circuit.seconds)}`
        : say`at most ${durationWords(circuit.seconds)}`,
    );
  }
  if (circuit.everySeconds !== null)
    parts.push(say`a new round every ${durationWords(circuit.everySeconds)}`);
  if (circuit.restSeconds !== null)
    parts.push(say`rest ${durationWords(circuit.restSeconds)} after each round`);
  return parts.length === 0 ? say('one after the other') : parts.join(', ');
}

/** Where a circuit lasts a time, nobody knows how many rounds it will be: enough boxes to write them down. */
const OPEN_ROUNDS = 6;

/** Rounds to write down. */
function roundBoxes({ seconds, everySeconds }: Circuit, rounds: number | null): number {
  if (rounds !== null) return rounds;
  if (seconds !== null && everySeconds !== null) return Math.max(1, Math.floor(seconds / everySeconds));
  return seconds === null ? 1 : OPEN_ROUNDS;
}

/** `rounds`: of the circuit in which the row stands; null outside of one. */
function rowSheets(
  rowKey: string,
  session: Session,
  rounds: number | null,
  context: SheetContext,
): readonly EntrySheet[] {
  return session.cells
    .filter((cell) => cell.row.key === rowKey)
    .map((cell) => ({ kind: 'movement', movement: movementSheet(cell, rounds, context) }) as const);
}

function movementSheet(cell: ResolvedCell, rounds: number | null, context: SheetContext): MovementSheet {
  const easier = context.easier(cell);
  const inCircuit = cell.row.circuit !== null;
  const details: string[] = [];
  if (cell.row.label !== null) details.push(cell.row.label);
  if (cell.swap) {
    const why = cell.swap.reason === null ? '' : ` (${cell.swap.reason})`;
    details.push(say`instead of ${cell.row.movementName.text}${why}`);
  }
  if (cell.heightCm !== null) details.push(say`height ${heightWords(cell)}`);
  if (cell.tempo) details.push(tempoWords(cell.tempo));
  return {
    name: capitalised(cell.movement?.name ?? cell.row.movementName.text),
    inCircuit,
    details,
    cue: cell.movement?.cue ?? null,
    easier: easier === null ? null : say`Easier: ${easier}`,
    texts: cell.texts,
    steps: testSteps(cell),
    warmUp: warmUpWords(cell),
    rest: cell.restSeconds === null ? null : durationWords(cell.restSeconds),
    work: cell.groups.map((group, index): WorkSheet => {
      const work = { ...workOf(cell, group), last: context.last(cell, index) };
      // A test has attempts, not sets: at most five, as its steps say.
      if (cell.test)
        return { ...work, dose: say`heaviest ${cell.test.reps}`, effort: reserveWords(1), boxes: 5 };
      return { ...work, boxes: boxCount(group, rounds) };
    }),
    source: cell.place,
  };
}

function heightWords(cell: ResolvedCell): string {
  const cm = cell.heightCm ?? 0;
  return cell.client.units === 'lb' ? `${formatNumber(cm / 2.54, 1)} in` : `${formatNumber(cm, 1)} cm`;
}

/** `3 s down, 1 s pause, 1 s up`. */
function tempoWords([down, pause, up]: readonly [number, number, number]): string {
  const parts = [say`${down} s down`];
  if (pause > 0) parts.push(say`${pause} s pause`);
  parts.push(up > 0 ? say`${up} s up` : say('fast up'));
  return say`tempo ${parts.join(', ')}`;
}
