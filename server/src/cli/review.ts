/** `stave review`: what one client did against her plan, and what the logs suggest. */
import { isValidIsoDate } from '../engine/dates.js';
import { type Review, reviewOf } from '../engine/history/review.js';
import { reviewToHtml } from '../engine/history/reviewHtml.js';
import {
  doneWords,
  insteadWords,
  STATE_WORDS,
  SUPPORT_WORDS,
  signed,
  workWords,
} from '../engine/history/words.js';
import type { Place } from '../engine/model.js';
import { formatNumber, formatPercent, roundTo } from '../engine/numbers.js';
import { formatMass } from '../engine/units.js';
import { planOf } from './clients.js';
import { quoted, readWorkspace, type Workspace } from './files.js';
import { placeOf } from './found.js';
import { EXIT, type Io, Misuse } from './io.js';
import { type FileOptions, writeDocument } from './plan.js';
import { coloursOf, counted, visible, wrapText } from './text.js';

export const REVIEW_FORMATS = ['text', 'json', 'html'] as const;

export interface ReviewOptions {
  readonly for: string;
  readonly format: (typeof REVIEW_FORMATS)[number];
  readonly today: string | null;
  readonly in: string | null;
  /** Files to write; null: the text, JSON or HTML goes to standard output. */
  readonly files?: FileOptions | null;
}

export async function review(paths: readonly string[], options: ReviewOptions, io: Io): Promise<number> {
  const today = todayOption(options.today, io);
  if (options.files) {
    const { in: lookIn, files } = options;
    return writeDocument(
      paths,
      { document: 'review', for: options.for, in: lookIn, ...files },
      { ...io, today },
    );
  }
  const workspace = await readWorkspace(paths, { ...io, today }, { lookIn: options.in });
  const plan = planOf(workspace, options.for);
  const found = reviewOf(
    plan,
    workspace.session.world(),
    today,
    workspace.session.signOffCriteria(plan.client.key),
  );
  if (options.format === 'json') io.out(`${JSON.stringify(reviewJson(found, workspace), null, 2)}\n`);
  else io.out(options.format === 'html' ? reviewToHtml(found) : reviewText(found, workspace, io));
  return EXIT.clean;
}

/** The day that counts as today. Throws `Misuse` for what is no date. */
export function todayOption(value: string | null, io: Io): string {
  if (value === null) return io.today;
  if (isValidIsoDate(value)) return value;
  throw new Misuse(`--today takes a date such as 2026-12-07; ${quoted(value)} is none.`);
}

export function at(workspace: Workspace, place: Place): string {
  const { file, line } = placeOf(workspace, place);
  return `${file}:${line}`;
}

function reviewText(found: Review, workspace: Workspace, io: Io): string {
  const colour = coloursOf(io);
  const { client } = found;
  const { units } = client;
  const lines: string[] = [colour.bold(visible(`${client.name}, ${found.today}`))];
  const say = (text: string, indent = '') => lines.push(wrapText(visible(text), io.width, indent));
  if (found.adherence !== null)
    say(`${formatPercent(found.adherence, 0)} of the planned sets so far were logged as done.`);

  lines.push('', colour.bold('To decide'));
  if (found.offers.length === 0) say('Nothing is offered today.', '  ');
  for (const offer of found.offers) {
    say(offer.title, '  ');
    say(offer.why, '    ');
    if (offer.line !== null) lines.push(`    ${colour.cyan(visible(offer.line))}`);
    for (const { message, place } of offer.rests) say(`${at(workspace, place)} ${message}`, '    ');
    say(`Source: ${offer.source}`, '    ');
  }

  lines.push('', colour.bold('Strength now (estimated max, band of about 95 of 100)'));
  for (const each of found.movements) {
    const { current, plan, perBodyMass } = each;
    const against = plan === null ? '' : ` (${mass(plan.kg, units)})`;
    const relative = perBodyMass === null ? '' : `, ${formatNumber(perBodyMass)} × body mass`;
    say(
      `${each.movement.name}: ${mass(current.kg, units)} (${mass(current.lowKg, units)} to ${mass(current.highKg, units)})${relative}; the logs show ${SUPPORT_WORDS[each.supports]}${against}`,
      '  ',
    );
  }

  lines.push('', colour.bold('Plan against done'));
  let unlogged = 0;
  const sayUnlogged = () => {
    if (unlogged > 0) say(`${counted(unlogged, 'week')} without a log`, '  ');
    unlogged = 0;
  };
  for (const week of found.weeks) {
    if (week.sessions.every(({ state }) => state === 'ahead')) continue;
    if (week.sessions.every(({ log }) => log === null)) {
      unlogged += 1;
      continue;
    }
    sayUnlogged();
    const share = week.adherence === null ? '' : `, ${formatPercent(week.adherence, 0)} of the sets`;
    say(
      `${week.program.name} · ${week.block.name}, week ${week.week}${week.deload ? ' (deload)' : ''}${share}`,
      '  ',
    );
    say(`planned ${workWords(week.planned, units)}; done ${workWords(week.done, units)}`, '    ');
    for (const session of week.sessions) {
      say(
        `${session.log?.date ?? session.date} ${session.session?.day.name ?? ''}: ${STATE_WORDS[session.state]}`,
        '    ',
      );
      for (const { done, planned, doneWork } of session.movements) {
        if (done.status === 'as-planned') continue;
        const difference = `${signed(doneWork.sets - planned.sets)} sets, ${signed(doneWork.reps - planned.reps)} reps`;
        const instead = insteadWords(done);
        const name = instead === '' ? done.name : `${done.name}, ${instead}`;
        say(`${name}: ${doneWords(done, units)} (${difference})`, '      ');
      }
    }
  }
  sayUnlogged();
  for (const session of found.sessions) {
    if (session.state === 'extra')
      say(`${session.date}: not planned; ${workWords(session.done, units)}`, '  ');
  }

  lines.push('', colour.bold('Years'));
  for (const year of found.years) {
    const parts = [
      `${year.sessionsLogged} sessions logged`,
      `volume-load ${formatMass(Math.round(year.volumeLoadKg), units)}`,
      ...(year.adherence === null ? [] : [`${formatPercent(year.adherence, 0)} of the planned sets`]),
      ...(year.massKg === null ? [] : [`body mass ${mass(year.massKg, units)}`]),
    ];
    say(`${year.year}: ${parts.join(', ')}`, '  ');
    for (const best of year.best) {
      say(
        `${best.name}: ${formatMass(best.loadKg, units)} × ${formatNumber(best.reps)} with ${formatNumber(best.reserve, 1)} left on ${best.date}, estimated max ${mass(best.estimatedOneRepMaxKg, units)}`,
        '    ',
      );
    }
  }
  for (const { kind, before, after, days, lostSessions } of found.between) {
    const what =
      kind === 'gap'
        ? `${counted(days, 'day')} without a program`
        : `${counted(lostSessions, 'session')} cut off`;
    say(
      `${what} between ${before.follows.programName.text} and ${after.follows.programName.text} (${before.until}, ${after.from})`,
      '  ',
    );
  }
  return `${lines.join('\n')}\n`;
}

function mass(kg: number, units: 'kg' | 'lb'): string {
  return formatMass(roundTo(kg, 1), units);
}

function plain(value: number | null): number | null {
  return value === null || !Number.isFinite(value) ? null : roundTo(value, 6);
}

const workJson = (work: { sets: number; reps: number; volumeLoadKg: number; minutes: number | null }) => ({
  sets: work.sets,
  reps: work.reps,
  volumeLoadKg: plain(work.volumeLoadKg),
  minutes: plain(work.minutes),
});

/** The JSON of a review. Loads in kilograms; `version` is raised when a field changes its meaning or goes. */
export function reviewJson(found: Review, workspace: Workspace): object {
  const place = (where: Place) => {
    const { file, line, column } = placeOf(workspace, where);
    return { file, line, column };
  };
  return {
    version: 1,
    client: found.client.name,
    today: found.today,
    adherence: plain(found.adherence),
    offers: found.offers.map(({ kind, about, title, why, source, rests, line, under }) => ({
      kind,
      about,
      title,
      why,
      source,
      rests: rests.map(({ place: where, message }) => ({ ...place(where), message })),
      line,
      under: place(under),
    })),
    movements: found.movements.map(({ movement, current, plan, supports, perBodyMass, estimates }) => ({
      movement: movement.name,
      estimatedOneRepMaxKg: plain(current.kg),
      lowKg: plain(current.lowKg),
      highKg: plain(current.highKg),
      planKg: plain(plan?.kg ?? null),
      supports,
      perBodyMass: plain(perBodyMass),
      estimates: estimates.map(({ date, kg, lowKg, highKg, set }) => ({
        date,
        estimatedOneRepMaxKg: plain(kg),
        lowKg: plain(lowKg),
        highKg: plain(highKg),
        from: set.from,
      })),
    })),
    sessions: found.sessions.map(({ date, session, log, state, planned, done, movements }) => ({
      date,
      loggedOn: log?.date ?? null,
      program: session?.program.name ?? null,
      block: session?.block.name ?? null,
      day: session?.day.name ?? null,
      week: session?.week ?? null,
      state,
      planned: workJson(planned),
      done: workJson(done),
      movements: movements.map((each) => ({
        movement: each.done.name,
        label: each.done.label,
        insteadOf: each.done.insteadOf?.name ?? null,
        status: each.done.status,
        inPlan: each.done.cell !== null,
        planned: workJson(each.planned),
        done: workJson(each.doneWork),
      })),
      rpe: log?.rpe ?? null,
      pains: (log?.pains ?? []).map(({ where, score }) => ({ where, score })),
    })),
    weeks: found.weeks.map(({ program, block, week, deload, from, planned, done, adherence }) => ({
      program: program.name,
      block: block.name,
      week,
      deload,
      from,
      planned: workJson(planned),
      done: workJson(done),
      adherence: plain(adherence),
    })),
    between: found.between.map(({ kind, before, after, days, lostSessions }) => ({
      kind,
      days,
      lostSessions,
      before: before.follows.programName.text,
      until: before.until,
      after: after.follows.programName.text,
      from: after.from,
    })),
    years: found.years.map((year) => ({
      ...year,
      volumeLoadKg: plain(year.volumeLoadKg),
      adherence: plain(year.adherence),
      massKg: plain(year.massKg),
      best: year.best.map(({ place: where, ...best }) => ({
        ...best,
        estimatedOneRepMaxKg: plain(best.estimatedOneRepMaxKg),
        perBodyMass: plain(best.perBodyMass),
        ...place(where),
      })),
    })),
  };
}
