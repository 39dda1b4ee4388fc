import type { Span } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import type { IsoDate } from '../../model.js';
import type { EngineSession } from '../../session.js';
import { formatMass } from '../../units.js';
import type { FileEdit } from '../navigation.js';
import {
  changesBetween,
  clientsOn,
  hasMore,
  mistakesOf,
  type NewFile,
  type Work,
  type WorkChange,
  type WorkKey,
  withEdits,
  worksApart,
  worksOf,
} from './trial.js';

/** What a refactoring does to the texts. */
export interface Rewrite {
  readonly edits: readonly FileEdit[];
  readonly newFiles: readonly NewFile[];
  /** Words for the coach to write over, in the text as it is after the edits. */
  readonly select?: { readonly file: string; readonly span: Span };
}

export type RefactorResult =
  | ({ readonly ok: true } & Rewrite)
  /** In plain words, why it cannot be done here. */
  | { readonly ok: false; readonly because: string };

export interface Refactoring {
  readonly title: string;
  readonly kind: 'refactor.rewrite' | 'refactor.extract' | 'refactor.move';
  /** Works the edits out and tries them; slow beside finding out that it may be offered. */
  readonly build: () => RefactorResult;
}

export interface RefactorContext {
  readonly session: EngineSession;
  readonly file: string;
  readonly offset: number;
  /** The client whose loads are shown; null: nobody. */
  readonly clientKey: string | null;
  readonly today: IsoDate | null;
}

export function refuse(because: string): RefactorResult {
  return { ok: false, because };
}

export interface Allowed {
  /** Where a cell is found after the edit; null: it is meant to be gone. */
  readonly renamed?: (key: WorkKey) => WorkKey | null;
  /** A change that is what the refactoring is for. */
  readonly intended?: (change: WorkChange) => boolean;
}

/**
 * Tries a rewrite on a copy of the workspace. It is taken when it adds no mistake and leaves every client with the work
 * that she had, but for what is intended; else the reason is told.
 */
export function tried(session: EngineSession, rewrite: Rewrite, allowed: Allowed = {}): RefactorResult {
  const files = [...new Set(rewrite.edits.map(({ file }) => file))];
  const all = [...files, ...rewrite.newFiles.map(({ file }) => file)];
  const clients = clientsOn(session.world(), new Set(files));
  const trial = withEdits(session, rewrite.edits, rewrite.newFiles);
  if (hasMore(mistakesOf(session, files, clients), mistakesOf(trial, all, clients)))
    return refuse(say('The result would not read without a mistake, so nothing was changed.'));
  // Where cells have other names afterwards, every one of them is looked up.
  const { before, after } = allowed.renamed
    ? { before: worksOf(session, clients), after: worksOf(trial, clients) }
    : worksApart(session, trial, clients);
  const changes = changesBetween(before, after, allowed.renamed).filter(
    (change) => !allowed.intended?.(change),
  );
  const change = changes.find(({ raised }) => raised) ?? changes[0];
  return change ? refuse(changeWords(change)) : { ok: true, ...rewrite };
}

/** `Heron's back squat in week 3 of Keel would go from 45 kg to 47.5 kg.` */
export function changeWords({ before, after }: WorkChange): string {
  const { client, block, week, row, movement } = before.cell;
  const where = say`${client.name}, ${block.name}, week ${week}: ${movement?.name ?? row.movementName.text}`;
  if (!after) return say`${where} would be lost, so nothing was changed.`;
  const from = loadWords(before);
  const to = loadWords(after);
  if (from === to) return say`${where} would no longer be the same work, so nothing was changed.`;
  return say`${where} would go from ${from} to ${to}, so nothing was changed.`;
}

function loadWords({ loadKg, cell }: Work): string {
  return loadKg === null ? say('no load') : formatMass(loadKg, cell.client.units);
}
