/** What `stave plan` can write: for each document and format, the bytes of a file. */
import path from 'node:path';
import type { Mistakes } from '../engine/documents/mistakes.js';
import { planCalendar } from '../engine/export/calendar.js';
import { planCsv } from '../engine/export/csv.js';
import { sessionsBetween } from '../engine/export/identity.js';
import { planJson } from '../engine/export/json.js';
import { planMarkdown } from '../engine/export/markdown.js';
import { rosterSettings } from '../engine/history/kept.js';
import { reviewOf } from '../engine/history/review.js';
import { rosterOf } from '../engine/history/roster.js';
import type { ClientPlan, Kit } from '../engine/model.js';
import { buildPlanDocument } from '../engine/print/build.js';
import { buildCards } from '../engine/print/card.js';
import { documentFileStem } from '../engine/print/fileName.js';
import { buildFloorSheet, sessionsAt } from '../engine/print/floor.js';
import { planToHtml } from '../engine/print/html.js';
import { largePlan } from '../engine/print/largePlan.js';
import { buildOverview } from '../engine/print/overview.js';
import type { Paper, PaperSize } from '../engine/print/paper/document.js';
import { paperToHtml } from '../engine/print/paper/html.js';
import { buildReview } from '../engine/print/review.js';
import { buildRoster } from '../engine/print/roster.js';
import { buildYears } from '../engine/print/years.js';
import type { RenderedPdf } from '../pdf/draw.js';
import type { DrawTask } from '../pdf/task.js';
import type { Workspace } from './files.js';
import { placeOf } from './found.js';
import type { Io } from './io.js';
import type { OutputFile } from './output.js';

export const PLAN_FORMATS = ['html', 'pdf', 'ics', 'csv', 'json', 'md'] as const;
export type PlanFormat = (typeof PLAN_FORMATS)[number];
export const DOCUMENTS = ['plan', 'card', 'floor', 'overview', 'review', 'years', 'roster'] as const;
export type DocumentName = (typeof DOCUMENTS)[number];
/** The formats of every document but the plan. */
export const PAPER_FORMATS: readonly PlanFormat[] = ['html', 'pdf'];

export interface DocumentOptions {
  readonly to: readonly PlanFormat[];
  readonly document: DocumentName;
  readonly from: string | null;
  readonly until: string | null;
  /** Day of a card or floor sheet; null: the next one that has sessions. */
  readonly date: string | null;
  readonly size: PaperSize;
  readonly large: boolean;
  /** How many mistakes a plan may rest on. */
  readonly mistakes: Mistakes;
}

/** One document, not yet drawn. */
export interface Job {
  /** Of the client or the place. */
  readonly name: string;
  /** File name without its ending. */
  readonly stem: string;
  /** The same as long as the content is. */
  fingerprint(): string;
  /** The files, with what draws their PDFs. Only now is the document made: all of them at once would fill the memory. */
  render(draw: (task: DrawTask) => Promise<RenderedPdf>): Promise<Rendered>;
}

export interface Rendered {
  readonly files: readonly OutputFile[];
  /** Characters that the fonts of the PDF lack. */
  readonly missing: readonly string[];
}

/** The documents of one client; none when she has no sessions in these dates. */
export function clientJobs(
  plan: ClientPlan,
  workspace: Workspace,
  options: DocumentOptions,
  folder: string,
  io: Io,
): readonly Job[] {
  const world = workspace.session.world();
  const { document, from, until, size, large } = options;
  const { name } = plan.client;
  const sessions = sessionsBetween(plan, from, until);
  const common = { printedOn: io.today, size, large };
  const large_ = large ? '-large' : '';
  if (document === 'card') {
    const date = options.date ?? sessions.find(({ date }) => date >= io.today)?.date ?? sessions[0]?.date;
    const ofDay = sessions.filter((session) => session.date === date);
    if (ofDay.length === 0) return [];
    return [
      paperJob(
        name,
        `card-${date}${large_}`,
        () => buildCards(plan, ofDay, common, world),
        options,
        folder,
        io,
      ),
    ];
  }
  if (document === 'review' || document === 'years') {
    const build = () => {
      const review = reviewOf(plan, world, io.today, workspace.session.signOffCriteria(plan.client.key));
      return document === 'review' ? buildReview(review, { ...common, from }) : buildYears(review, common);
    };
    return [paperJob(name, `${document}${large_}`, build, options, folder, io)];
  }
  if (sessions.length === 0) return [];
  if (document === 'overview') {
    return [
      paperJob(
        name,
        `overview${large_}`,
        () => buildOverview(plan, sessions, world, common),
        options,
        folder,
        io,
      ),
    ];
  }
  return [planJob(plan, workspace, options, folder, io)];
}

/** A floor sheet for each place at which somebody trains on the date. */
export function floorJobs(
  plans: readonly ClientPlan[],
  kits: readonly Kit[],
  options: DocumentOptions,
  folder: string,
  io: Io,
): readonly Job[] {
  const { size, large } = options;
  const later = plans.flatMap(({ sessions }) =>
    sessions.filter((session) => session.date >= io.today && session.kit !== null),
  );
  const date = options.date ?? later.map((session) => session.date).sort()[0];
  if (date === undefined) return [];
  return kits.flatMap((kit) => {
    const sessions = sessionsAt(plans, kit.key, date);
    if (sessions.length === 0) return [];
    const build = () => buildFloorSheet(kit, sessions, { date, printedOn: io.today, size, large });
    return [paperJob(kit.name, `floor-${date}${large ? '-large' : ''}`, build, options, folder, io)];
  });
}

/** What only moved in the text is printed as before. */
function withoutSources(key: string, value: unknown): unknown {
  return key === 'source' ? undefined : value;
}

/** The roster of everybody, in one document. */
export function rosterJob(
  plans: readonly ClientPlan[],
  workspace: Workspace,
  options: DocumentOptions,
  folder: string,
  io: Io,
): Job {
  const lines = rosterOf(plans, workspace.session.world(), io.today, (key) =>
    rosterSettings(workspace.session, key),
  );
  const { size, large } = options;
  const build = () =>
    buildRoster(lines, {
      today: io.today,
      printedOn: io.today,
      size,
      large,
      placeWords: (place) => {
        const { file, line } = placeOf(workspace, place);
        return `${file}:${line}`;
      },
    });
  return paperJob('roster', `${io.today}${large ? '-large' : ''}`, build, options, folder, io);
}

function paperJob(
  name: string,
  suffix: string,
  build: () => Paper,
  { to }: DocumentOptions,
  folder: string,
  io: Io,
): Job {
  const stem = documentFileStem(name, suffix);
  return {
    name,
    stem,
    fingerprint: () => JSON.stringify(build(), withoutSources),
    async render(draw) {
      const built = build();
      const paper = built.onePage ? (await import('./pdf.js')).fitted(built) : built;
      const files: OutputFile[] = [];
      let missing: readonly string[] = [];
      if (to.includes('html'))
        files.push({ path: path.join(folder, `${stem}.html`), content: paperToHtml(paper) });
      if (to.includes('pdf')) {
        const drawn = await draw({ kind: 'paper', paper, madeAtMs: io.madeAtSeconds * 1000 });
        files.push({ path: path.join(folder, `${stem}.pdf`), content: drawn.bytes });
        missing = drawn.missing;
      }
      return { files, missing };
    },
  };
}

function planJob(
  plan: ClientPlan,
  workspace: Workspace,
  options: DocumentOptions,
  folder: string,
  io: Io,
): Job {
  const { from, until, mistakes, size, large, to } = options;
  const dates = { from, until, printedOn: io.today };
  const build = () => {
    const world = workspace.session.world();
    return buildPlanDocument(plan, world, { ...dates, errors: mistakes(plan), size });
  };
  const data = () => planJson(plan, dates);
  const madeAtMs = io.madeAtSeconds * 1000;
  const stem = documentFileStem(plan.client.name, large ? 'plan-large' : 'plan');
  return {
    name: plan.client.name,
    stem,
    fingerprint: () => JSON.stringify([build(), data()], withoutSources),
    async render(draw) {
      const document = build();
      let missing: readonly string[] = [];
      const drawn = async (): Promise<Uint8Array> => {
        const result = await draw({ kind: 'plan', document, size, large, madeAtMs });
        missing = result.missing;
        return result.bytes;
      };
      const content: Readonly<Record<PlanFormat, () => Promise<string | Uint8Array>>> = {
        html: async () => (large ? paperToHtml(largePlan(document, size)) : planToHtml(document, size)),
        pdf: drawn,
        ics: async () => {
          const { calendarText } = await import('./calendarFile.js');
          const calendar = planCalendar(plan, from, until, workspace.session.world());
          return calendarText(calendar, new Date(madeAtMs));
        },
        csv: async () => planCsv(data()),
        json: async () => `${JSON.stringify(data(), null, 2)}\n`,
        md: async () => planMarkdown(document),
      };
      const files: OutputFile[] = [];
      for (const format of to)
        files.push({ path: path.join(folder, `${stem}.${format}`), content: await content[format]() });
      return { files, missing };
    },
  };
}
